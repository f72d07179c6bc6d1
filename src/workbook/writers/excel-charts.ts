/** Charts and pictures of a sheet, through the spreadsheet program. */
import { FORMATS, letter, type Chart, type Picture } from '../model.js';
import { STROKES } from './charts.js';
import { FACE, INK } from './ink.js';

const DASHES = { solid: 'Continuous', dash: 'Dash', sysDot: 'RoundDot' } as const;
/** Labels below the line of days: one for about every fortnight, month or two of a season. */
const LABELS = 12;
export const POINTS_PER_PIXEL = 72 / 96;

/** `'Balance trees'!$A$6:$A$64` as sheet and address. */
function parts(reference: string): { sheet: string; address: string } {
  const at = reference.lastIndexOf('!');
  const sheet = reference.slice(0, at).replace(/^'|'$/g, '').replaceAll("''", "'");
  return { sheet, address: reference.slice(at + 1).replaceAll('$', '') };
}

const rowsIn = (reference: string): number => {
  const [from = '', to = from] = parts(reference).address.split(':');
  const row = (corner: string): number => Number(/\d+$/.exec(corner)?.[0] ?? 1);
  return row(to) - row(from) + 1;
};

/** The program has no way to give a chart an alternative text; its place on the sheet is said by its name. */
export function addChart(
  context: Excel.RequestContext,
  sheet: Excel.Worksheet,
  chart: Chart,
): void {
  const range = (reference: string): Excel.Range => {
    const { sheet: name, address } = parts(reference);
    return context.workbook.worksheets.getItem(name).getRange(address);
  };
  const first = chart.series[0];
  if (first === undefined) return;
  const lines = chart.kind === 'line';
  const made = sheet.charts.add(lines ? 'Line' : 'ColumnClustered', range(first.values), 'Columns');
  made.name = chart.title;
  made.title.text = chart.title;
  made.title.format.font.size = 11;
  made.title.format.font.color = `#${INK.bark}`;
  made.title.format.font.name = FACE;
  made.legend.visible = chart.series.length > 1;
  if (chart.series.length > 1) made.legend.position = 'Bottom';
  chart.series.forEach((own, i) => {
    const series = i === 0 ? made.series.getItemAt(0) : made.series.add(own.name);
    const { color, width, dash } = STROKES[own.look];
    series.name = own.name;
    series.setValues(range(own.values));
    series.setXAxisValues(range(own.categories));
    if (lines) {
      series.format.line.color = `#${color}`;
      series.format.line.weight = width;
      series.format.line.lineStyle = DASHES[dash];
      series.markerStyle = 'None';
      series.smooth = false;
    } else {
      series.format.fill.setSolidColor(`#${color}`);
      series.gapWidth = 40;
    }
  });
  const { categoryAxis, valueAxis } = made.axes;
  for (const [axis, title] of [[categoryAxis, chart.x], [valueAxis, chart.y]] as const) {
    axis.title.text = title;
    axis.title.format.font.size = 9;
    axis.title.format.font.color = `#${INK.loam}`;
    axis.format.font.size = 8;
    axis.format.font.color = `#${INK.bark}`;
  } // prettier-ignore
  const every = Math.max(1, Math.ceil(rowsIn(first.categories) / LABELS));
  categoryAxis.categoryType = 'TextAxis';
  categoryAxis.tickLabelSpacing = every;
  categoryAxis.tickMarkSpacing = every;
  if (chart.dates) {
    categoryAxis.numberFormat = FORMATS.date;
    categoryAxis.textOrientation = 45;
  }
  valueAxis.majorGridlines.visible = true;
  const { from, to } = chart;
  made.setPosition(`${letter(from.column)}${from.row}`, `${letter(Math.max(from.column, to.column - 1))}${Math.max(from.row, to.row - 1)}`); // prettier-ignore
}

/** Bytes as base64, in pages and in Node. */
export function base64(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 8192)
    text += String.fromCharCode(...bytes.subarray(i, i + 8192));
  return btoa(text);
}

/** @param at - the cell of its upper left corner, with `left` and `top` loaded */
export function addPicture(
  sheet: Excel.Worksheet,
  picture: Picture,
  image: string,
  at: { left: number; top: number },
): void {
  const shape = sheet.shapes.addImage(image);
  shape.name = picture.name;
  shape.altTextTitle = picture.name;
  shape.altTextDescription = picture.alt;
  shape.lockAspectRatio = false;
  shape.width = picture.width * POINTS_PER_PIXEL;
  shape.height = picture.height * POINTS_PER_PIXEL;
  shape.lockAspectRatio = true;
  shape.left = at.left;
  shape.top = at.top;
  shape.placement = 'OneCell';
}
