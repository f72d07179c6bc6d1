/** Sheets the office fills: Site, Weather, Kit. Rules have a file of their own. */
import { civil, isDay, MONTHS } from '../../engine/dates.js';
import { isBlank, type Cell } from '../../tables/cells.js';
import { KIT_COLUMNS, kitRows } from '../../tables/kit.js';
import { SITE_INPUTS, type SiteKey } from '../../tables/site-inputs.js';
import { originOf, siteRows } from '../../tables/site-notes.js';
import { FAMILIES } from '../../engine/plan/model.js';
import {
  cell,
  formula,
  SheetDraft,
  tidy,
  uniqueHeaders,
  type ColumnSpec,
  type ModelCell,
  type Sheet,
  type TablePlace,
} from '../model.js';
import { widthFor, type Context } from './context.js';

/** A sheet with references to cells that other sheets point at. */
export interface Built<Refs> {
  sheet: Sheet;
  refs: Refs;
}

/** Headings that stand above tables, by which a workbook of ours is read back. */
export const MARKS = { weather: 'Weather as given', stages: 'Stages', rules: 'Rules' } as const;

export function siteSheet(ctx: Context): Built<{ value: (key: SiteKey) => string }> {
  const draft = new SheetDraft('Site', 'Site');
  draft.text([
    cell('Site', 'title'),
    cell(
      'Inputs of the site. Change a value, then plan again; cells that recalculate follow at once.',
      'note',
    ),
  ]);
  draft.skip();
  const origins = ctx.origins ?? {};
  const rows = siteRows(ctx.plan.site, ctx.units, origins, ctx.kit).slice(1);
  const place = draft.table(
    'Site',
    [
      { key: 'name', header: 'Name', width: 36 },
      { key: 'value', header: 'Value', width: 22, style: 'input', align: 'right', wrap: true },
      { key: 'unit', header: 'Unit', width: 14 },
      { key: 'note', header: 'Note', width: 46, wrap: true },
      { key: 'source', header: 'Source', width: 34, wrap: true },
      { key: 'kind', header: 'Kind', width: 12 },
    ],
    rows.length,
    (i) => {
      const input = SITE_INPUTS[i]!;
      const [name, value, unit, note, source] = rows[i]!;
      return [
        name ?? null,
        {
          value: value ?? null,
          ...(input.kind === 'day'
            ? { format: 'date' as const }
            : typeof value === 'number' && { format: tidy(value) }),
        },
        unit ?? null,
        note ?? null,
        source ?? null,
        originOf(input.key, origins).kind,
      ];
    },
  );
  SITE_INPUTS.forEach((input, i) => {
    if (!input.words) return;
    const at = `${place.letter('value')}${place.row(i)}`;
    draft.validate(at, [...input.words], `One of: ${input.words.join(', ')}`);
  });
  draft.freeze(place.headerRow).repeat(place.headerRow, place.headerRow);
  const value = (key: SiteKey): string =>
    place.cell(
      'value',
      SITE_INPUTS.findIndex((input) => input.key === key),
    );
  return { sheet: draft.done(), refs: { value } };
}

/** A column of ours to the right of a given table. */
export interface AddedColumn {
  column: ColumnSpec;
  /** a cell for each row that is not blank, in their order */
  cells: ModelCell[];
}

/** A table as it was given: header and rows, each cell as it came; then a column of ours. */
export function givenTable(
  draft: SheetDraft,
  name: string,
  given: Cell[][],
  wide = 30,
  added?: AddedColumn,
): TablePlace {
  const header = given[0] ?? [];
  const body = given.slice(1).filter((row) => row.some((c) => !isBlank(c)));
  const names = uniqueHeaders(header.map((h) => (h === null ? '' : String(h))));
  const columns = names.map((text, i): ColumnSpec => {
    const cells = body.map((row) => row[i]);
    const numeric = cells.some((c) => typeof c === 'number');
    return {
      key: `c${i}`,
      header: text,
      width: widthFor(text, cells, wide),
      style: 'input',
      wrap: !numeric,
      align: numeric ? 'right' : 'left',
      // "1-30" typed below the last row would become a date
      ...(/^new planting$/i.test(text) && { format: 'text' }),
    };
  });
  const dates = names.map((text) => /^(from|to|date|day)\b/i.test(text));
  const all = added ? [...columns, added.column] : columns;
  return draft.table(name, all, body.length, (i) => {
    const row = columns.map((_, c): ModelCell => {
      const value = body[i]![c] ?? null;
      if (typeof value !== 'number') return value;
      const format = dates[c] && isDay(value) ? 'date' : tidy(value);
      return format === 'general' ? value : { value, format };
    });
    return added ? [...row, added.cells[i] ?? null] : row;
  });
}

export function weatherSheet(
  ctx: Context,
): Built<{ peak: string; months: TablePlace; days: TablePlace }> {
  const { weather } = ctx.plan;
  const draft = new SheetDraft('Weather', 'Weather', { orientation: 'portrait' });
  const unit = ctx.unit('depth');
  draft.text([
    cell('Weather', 'title'),
    cell(
      `As given, in the units of its headers; then in ${ctx.units === 'US' ? 'inches' : 'millimetres'}, by month and every day of the season as the plan used it.`,
      'note',
    ),
  ]);
  draft.skip();
  draft.text([cell(MARKS.weather, 'heading')]);
  givenTable(
    draft,
    'WeatherGiven',
    ctx.weatherRows.length ? ctx.weatherRows : [['Month', 'ET0', 'Rain']],
  );
  draft.skip();

  const days = weather.et0.length;
  const months: { month: number; et0: number; rain: number; counted: number; days: number }[] = [];
  for (let i = 0; i < days; i++) {
    const { month } = civil(weather.from + i);
    let tally = months.find((m) => m.month === month);
    if (!tally) months.push((tally = { month, et0: 0, rain: 0, counted: 0, days: 0 }));
    tally.et0 += weather.et0[i]!;
    tally.rain += weather.rain[i]!;
    tally.counted += weather.effectiveRain[i]!;
    tally.days += 1;
  }
  // The months come first on paper but sum the days below: their rows are known beforehand.
  const peakRow = draft.row + 1;
  const monthsTop = peakRow + 2;
  const firstDay = monthsTop + months.length + 4;
  const range = (column: string): string =>
    `$${column}$${firstDay}:$${column}$${firstDay + days - 1}`;
  draft.text([cell('By month of the season', 'heading')]);
  draft.text([
    [
      cell(`Peak month ET0 (${unit}/day)`, 'note'),
      cell(null),
      formula(
        `MAX($D$${monthsTop + 1}:$D$${monthsTop + months.length})`,
        ctx.show('depth', weather.peakEt0),
        { style: 'result', format: 'three' },
      ),
    ],
  ]);
  draft.skip();
  const monthPlace = draft.table(
    'WeatherMonths',
    [
      { key: 'month', header: 'Month no.', width: 12, style: 'calculation', format: 'whole' },
      { key: 'name', header: 'Month', width: 12 },
      { key: 'days', header: 'Days', width: 12, style: 'calculation', format: 'whole' },
      {
        key: 'et0',
        header: `Mean ET0 (${unit}/day)`,
        width: 14,
        style: 'calculation',
        format: 'three',
      },
      { key: 'rain', header: `Rain (${unit})`, width: 14, style: 'calculation', format: 'two' },
      {
        key: 'counted',
        header: `Rain that counts (${unit})`,
        width: 16,
        style: 'calculation',
        format: 'two',
      },
    ],
    months.length,
    (i, place) => {
      const m = months[i]!;
      const key = place.here('month', i);
      return [
        m.month,
        MONTHS[m.month - 1] ?? '',
        formula(`COUNTIF(${range('B')},${key})`, m.days),
        formula(`AVERAGEIF(${range('B')},${key},${range('C')})`, ctx.show('depth', m.et0 / m.days)),
        formula(`SUMIF(${range('B')},${key},${range('D')})`, ctx.show('depth', m.rain)),
        formula(`SUMIF(${range('B')},${key},${range('E')})`, ctx.show('depth', m.counted)),
      ];
    },
  );
  draft.skip();
  draft.text([cell('Day by day', 'heading')]);
  const dayPlace = draft.table(
    'WeatherDays',
    [
      { key: 'date', header: 'Date', width: 12, format: 'date' },
      { key: 'month', header: 'Month of date', width: 12, style: 'calculation', format: 'whole' },
      { key: 'et0', header: `ET0 (${unit}/day)`, width: 12, style: 'calculation', format: 'three' },
      {
        key: 'rain',
        header: `Rain of day (${unit})`,
        width: 14,
        style: 'calculation',
        format: 'three',
      },
      {
        key: 'counted',
        header: `Counted (${unit})`,
        width: 14,
        style: 'calculation',
        format: 'three',
      },
    ],
    days,
    (i, place) => [
      weather.from + i,
      formula(`MONTH(${place.here('date', i)})`, civil(weather.from + i).month),
      ctx.show('depth', weather.et0[i]!),
      ctx.show('depth', weather.rain[i]!),
      ctx.show('depth', weather.effectiveRain[i]!),
    ],
  );
  if (dayPlace.row(0) !== firstDay)
    throw new RangeError(`the days start on row ${dayPlace.row(0)}, not ${firstDay}`);
  return {
    sheet: draft.done(),
    refs: { peak: `Weather!$C$${peakRow}`, months: monthPlace, days: dayPlace },
  };
}

export function kitSheet(ctx: Context): Built<{ place: TablePlace }> {
  const draft = new SheetDraft('Kit', 'Kit');
  draft.text([
    cell('Kit', 'title'),
    cell(
      'Devices that may be used. A soaker hose needs a measured rate: hoses differ fourfold.',
      'note',
    ),
  ]);
  draft.skip();
  const place = givenTable(draft, 'Kit', kitRows(ctx.kit, ctx.units));
  draft.validate(place.area('c1'), [...FAMILIES], `One of: ${FAMILIES.join(', ')}`);
  const buy = KIT_COLUMNS.findIndex(({ key }) => key === 'buy');
  draft.validate(
    place.area(`c${buy}`),
    ['yes', 'no'],
    'One of: yes, no; blank is as Stock only on Site says',
  );
  draft.freeze(place.headerRow, 1).repeat(place.headerRow, place.headerRow);
  return { sheet: draft.done(), refs: { place } };
}
