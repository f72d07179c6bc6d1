/** Charts of the model in the terms of the file library, which draws one kind in a chart: no bars under a line. */
import type { SheetChart } from 'hucre/xlsx';
import { FORMATS, type Chart, type ChartLook } from '../model.js';
import { writable } from '../writable.js';
import { FACE, INK } from './ink.js';

/** Lines told apart by stroke as well as by colour; the same colours fill bars. */
export const STROKES: Record<ChartLook, { color: string; width: number; dash: 'solid' | 'dash' | 'sysDot' }> = {
  line: { color: INK.water, width: 1.75, dash: 'solid' },
  dashed: { color: INK.clay, width: 1.75, dash: 'dash' },
  dotted: { color: INK.leaf, width: 2, dash: 'sysDot' },
  thick: { color: INK.bark, width: 3, dash: 'solid' },
}; // prettier-ignore

/** Labels below the line of days: one for about every fortnight, month or two of a season. */
const LABELS = 12;

/** Rows a range spans. */
function rowsIn(range: string): number {
  const found = /\$(\d+):\$[A-Z]+\$(\d+)$/.exec(range);
  return found ? Number(found[2]) - Number(found[1]) + 1 : 1;
}

export function renderChart(chart: Chart): SheetChart {
  const { from, to } = chart;
  const every = Math.max(1, Math.ceil(rowsIn(chart.series[0]?.categories ?? '') / LABELS));
  const axis = {
    axisTitleFontSize: 9,
    axisTitleColor: INK.loam,
    labelFontSize: 8,
    labelColor: INK.bark,
    axisTitleFontFamily: FACE,
    labelFontFamily: FACE,
    majorTickMark: 'out' as const,
    minorTickMark: 'none' as const,
  };
  return {
    type: chart.kind,
    title: chart.title,
    titleFontSize: 11,
    titleColor: INK.bark,
    titleFontFamily: FACE,
    titleOverlay: false,
    altText: writable(chart.alt),
    frameTitle: chart.title,
    legend: chart.series.length > 1 ? 'bottom' : false,
    legendFontSize: 9,
    anchor: {
      from: { row: from.row - 1, col: from.column },
      to: { row: to.row - 1, col: to.column },
    },
    series: chart.series.map(({ name, values, categories, look }) => ({
      name,
      values,
      categories,
      color: STROKES[look].color,
      ...(chart.kind === 'line' && {
        stroke: { width: STROKES[look].width, dash: STROKES[look].dash },
        marker: { symbol: 'none' as const },
        smooth: false,
      }),
    })),
    ...(chart.kind === 'column' && { barGrouping: 'clustered' as const, gapWidth: 40 }),
    axes: {
      x: {
        ...axis,
        title: chart.x,
        tickLblSkip: every,
        tickMarkSkip: every,
        ...(chart.dates && { numberFormat: { formatCode: FORMATS.date }, labelRotation: -45 }),
      },
      y: {
        ...axis,
        title: chart.y,
        axisTitleRotation: -90,
        numberFormat: { formatCode: FORMATS.general },
        gridlines: { major: true },
      },
    },
  };
}
