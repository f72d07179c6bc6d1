/** Ranges, what they look like, their validations and conditions, as the host offers them. */
import { addressOf, COLUMNS, ROWS, type Area } from './areas.js';
import type { ConditionState, RangeState, SheetState, ValidationState } from './book.js';
import { invalid, OfficeError } from './errors.js';
import {
  anything,
  does,
  flag,
  gives,
  givesOrNull,
  kind,
  may,
  must,
  nav,
  number,
  oneOf,
  readOnly,
  shape,
  text,
  type AnyKind,
  type Check,
  type Prop,
} from './members.js';
import { first, fullAddress } from './ranges.js';
import { sheetKind } from './sheet-kinds.js';

const index: Check = (value) =>
  number(value) ??
  (Number.isInteger(value) && (value as number) >= 0
    ? undefined
    : 'a whole number from 0 is expected');

/** Writes a value for all cells, or a table of the range's own shape. */
function spread(
  range: RangeState,
  given: unknown,
  each: (row: number, column: number, value: unknown) => void,
): void {
  const { top, left, rows, columns } = first(range);
  const table = given as unknown[][];
  if (Array.isArray(given)) {
    const fits =
      table.length === rows && table.every((r) => Array.isArray(r) && r.length === columns);
    if (!fits)
      throw invalid(
        `The values are ${table.length} by ${table[0]?.length ?? 0}; the range ${addressOf(first(range))} is ${rows} by ${columns}`,
      );
  }
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++)
      each(top + r, left + c, Array.isArray(given) ? table[r]![c] : given);
}

/** Most characters of a cell. */
const LONGEST_TEXT = 32_767;

function enter(range: RangeState, given: unknown): void {
  spread(range, given, (row, column, value) => {
    if (typeof value === 'object' && value !== null)
      throw invalid('A cell holds text, a number or TRUE or FALSE');
    if (typeof value === 'number' && !Number.isFinite(value))
      throw invalid('A number of a cell must be finite');
    if (typeof value === 'string' && value.length > LONGEST_TEXT)
      throw invalid('A text is too long for a cell');
    range.sheet.enter(row, column, value);
  });
  range.sheet.book.happened.push({
    list: range.sheet.book.events.changed,
    args: { worksheetId: range.sheet.id, address: addressOf(first(range)), type: 'Changed' },
  });
}

const scalarOrTable: Check = anything;

/** Shown text, roughly: dates and numbers as they are. */
const shownText = (sheet: SheetState, row: number, column: number): string =>
  String(sheet.grid.shown(row, column));

/** A setting painted over the range's areas. */
function painted(since: number, key: string, otherwise: unknown, check: Check): Prop<RangeState> {
  return {
    since,
    get: ({ sheet, areas }) => {
      const { top, left, rows, columns } = areas[0]!;
      const own = sheet.grid.look(key, top, left, otherwise);
      const same = Array.from({ length: Math.min(rows, 500) }).every((_, r) =>
        Array.from({ length: Math.min(columns, 50) }).every(
          (__, c) => sheet.grid.look(key, top + r, left + c, otherwise) === own,
        ),
      );
      return same ? own : null;
    },
    put: ({ sheet, areas }, value) => areas.forEach((area) => sheet.grid.paint(key, area, value)),
    check,
  };
}

const colour: Check = (value) =>
  text(value) ?? (/^#[0-9a-f]{6}$/i.test(value as string) ? undefined : 'a colour is #RRGGBB here');

const fontKind = kind<RangeState>('RangeFont', {
  props: {
    name: painted(1, 'font.name', 'Calibri', text),
    size: painted(1, 'font.size', 11, number),
    color: painted(1, 'font.color', '#000000', colour),
    bold: painted(1, 'font.bold', false, flag),
    italic: painted(1, 'font.italic', false, flag),
    underline: painted(1, 'font.underline', 'None', oneOf('None', 'Single', 'Double')),
  },
});

const fillKind = kind<RangeState>('RangeFill', {
  props: { color: painted(1, 'fill.color', '', colour) },
  methods: {
    clear: does(1, [], ({ sheet, areas }: RangeState) =>
      areas.forEach((area) => sheet.grid.paint('fill.color', area, '')),
    ),
  },
});

interface BorderState {
  range: RangeState;
  side: string;
}

/** Cells a border of a range runs along, and on which of their edges. */
function edges({ top, left, rows, columns }: Area, side: string): { area: Area; edge: string }[] {
  switch (side) {
    case 'EdgeTop': return [{ area: { top, left, rows: 1, columns }, edge: 'top' }];
    case 'EdgeBottom': return [{ area: { top: top + rows - 1, left, rows: 1, columns }, edge: 'bottom' }];
    case 'EdgeLeft': return [{ area: { top, left, rows, columns: 1 }, edge: 'left' }];
    case 'EdgeRight': return [{ area: { top, left: left + columns - 1, rows, columns: 1 }, edge: 'right' }];
    case 'InsideHorizontal': return rows < 2 ? [] : [
      { area: { top, left, rows: rows - 1, columns }, edge: 'bottom' },
      { area: { top: top + 1, left, rows: rows - 1, columns }, edge: 'top' },
    ];
    default: return columns < 2 ? [] : [
      { area: { top, left, rows, columns: columns - 1 }, edge: 'right' },
      { area: { top, left: left + 1, rows, columns: columns - 1 }, edge: 'left' },
    ];
  }
} // prettier-ignore

const bordered = (key: string, otherwise: unknown, check: Check): Prop<BorderState> => ({
  since: 1,
  get: ({ range, side }) => {
    const { area, edge } = edges(first(range), side)[0]!;
    return range.sheet.grid.look(`border.${edge}.${key}`, area.top, area.left, otherwise);
  },
  put: ({ range, side }, value) => {
    for (const own of range.areas)
      for (const { area, edge } of edges(own, side))
        range.sheet.grid.paint(`border.${edge}.${key}`, area, value);
  },
  check,
});

const borderKind = kind<BorderState>('RangeBorder', {
  props: {
    style: bordered(
      'style',
      'None',
      oneOf('None', 'Continuous', 'Dash', 'DashDot', 'Dot', 'Double'),
    ),
    weight: bordered('weight', 'Thin', oneOf('Hairline', 'Thin', 'Medium', 'Thick')),
    color: bordered('color', '#000000', colour),
  },
});

const SIDES = [
  'EdgeTop',
  'EdgeBottom',
  'EdgeLeft',
  'EdgeRight',
  'InsideVertical',
  'InsideHorizontal',
];
const bordersKind = kind<RangeState>('RangeBorderCollection', {
  methods: {
    getItem: gives(1, () => borderKind, [must(oneOf(...SIDES))], (range: RangeState, side: string): BorderState => ({ range, side })),
  },
}); // prettier-ignore

const formatKind = kind<RangeState>('RangeFormat', {
  props: {
    columnWidth: painted(2, 'columnWidth', 48, number),
    rowHeight: painted(2, 'rowHeight', 15, number),
    horizontalAlignment: painted(1, 'align', 'General', oneOf('General', 'Left', 'Center', 'Right')),
    verticalAlignment: painted(1, 'vertical', 'Bottom', oneOf('Top', 'Center', 'Bottom')),
    wrapText: painted(1, 'wrap', false, flag),
    indentLevel: painted(9, 'indent', 0, number),
  },
  navs: {
    font: nav<RangeState>(1, () => fontKind, (range) => range),
    fill: nav<RangeState>(1, () => fillKind, (range) => range),
    borders: nav<RangeState>(1, () => bordersKind, (range) => range),
  },
  methods: { autofitColumns: does(2, [], () => undefined), autofitRows: does(2, [], () => undefined) },
}); // prettier-ignore

function validationOf(range: RangeState): ValidationState {
  const same = (v: ValidationState): boolean =>
    JSON.stringify(v.areas) === JSON.stringify(range.areas);
  const found = range.sheet.validations.find(same);
  if (found) return found;
  const made: ValidationState = {
    areas: range.areas,
    rule: {},
    prompt: {},
    errorAlert: {},
    ignoreBlanks: true,
  };
  range.sheet.validations.push(made);
  return made;
}

/** Longest list written into the rule itself, longest message of a prompt and of an alert [characters]. */
const LONGEST_LIST = 255;
const limited =
  (most: number): Check =>
  (value) =>
    text(value) ?? ((value as string).length <= most ? undefined : `at most ${most} characters`);

const validationKind = kind<ValidationState>('DataValidation', {
  props: {
    rule: {
      since: 8,
      get: (v) => v.rule,
      put: (v, value: { list: { source: string } }) => {
        const { source } = value.list;
        if (!source.startsWith('=') && source.length > LONGEST_LIST)
          throw invalid(`A list of ${source.length} characters is too long for a rule`);
        v.rule = value;
      },
      check: shape({ list: shape({ inCellDropDown: flag, source: text }) }),
    },
    prompt: {
      since: 8,
      get: (v) => v.prompt,
      put: (v, value) => void (v.prompt = value),
      check: shape({ message: limited(255), showPrompt: flag, title: limited(32) }),
    },
    errorAlert: {
      since: 8,
      get: (v) => v.errorAlert,
      put: (v, value) => void (v.errorAlert = value),
      check: shape({ message: limited(255), showAlert: flag, style: oneOf('Stop', 'Warning', 'Information'), title: limited(32) }),
    },
    ignoreBlanks: { since: 8, get: (v) => v.ignoreBlanks, put: (v, value) => void (v.ignoreBlanks = value), check: flag },
  },
}); // prettier-ignore

const conditionFontKind = kind<ConditionState>('ConditionalRangeFont', {
  props: {
    color: { since: 6, get: (c) => c.color, put: (c, v) => void (c.color = v), check: colour },
    bold: { since: 6, get: (c) => c.bold, put: (c, v) => void (c.bold = v), check: flag },
  },
});
const conditionFormatKind = kind<ConditionState>('ConditionalRangeFormat', {
  navs: { font: nav<ConditionState>(6, () => conditionFontKind, (c) => c) },
}); // prettier-ignore
const conditionRuleKind = kind<ConditionState>('ConditionalFormatRule', {
  props: {
    formula: {
      since: 6,
      get: (c) => c.formula,
      put: (c, v: string) => {
        if (!v.startsWith('='))
          throw invalid('The formula of a condition starts with an equals sign');
        if (/\bSOAK\./i.test(v)) throw invalid('A condition cannot call an add-in function');
        c.formula = v;
      },
      check: text,
    },
  },
});
const customConditionKind = kind<ConditionState>('CustomConditionalFormat', {
  navs: {
    rule: nav<ConditionState>(6, () => conditionRuleKind, (c) => c),
    format: nav<ConditionState>(6, () => conditionFormatKind, (c) => c),
  },
}); // prettier-ignore
const conditionKind = kind<ConditionState>('ConditionalFormat', {
  navs: { custom: nav<ConditionState>(6, () => customConditionKind, (c) => c) },
}); // prettier-ignore
const conditionsKind = kind<RangeState>('ConditionalFormatCollection', {
  methods: {
    add: gives(6, () => conditionKind, [must(oneOf('Custom'))], (range: RangeState): ConditionState => {
      const made = { areas: range.areas, formula: '', color: '', bold: false };
      range.sheet.conditions.push(made);
      return made;
    }),
  },
}); // prettier-ignore

const shared = {
  format: nav<RangeState>(1, () => formatKind, (range) => range),
  worksheet: nav<RangeState>(1, sheetKind, ({ sheet }) => sheet),
  conditionalFormats: nav<RangeState>(6, () => conditionsKind, (range) => range),
  dataValidation: nav<RangeState>(8, () => validationKind, validationOf),
}; // prettier-ignore

/** Points from the edge of the sheet to a row or column. */
const distance = (sheet: SheetState, key: 'rowHeight' | 'columnWidth', count: number): number =>
  Array.from({ length: count }).reduce<number>(
    (sum, _, i) =>
      sum +
      (key === 'rowHeight'
        ? (sheet.grid.look(key, i, 0, 15) as number)
        : (sheet.grid.look(key, 0, i, 48) as number)),
    0,
  );

const table = (range: RangeState, of: (row: number, column: number) => unknown): unknown[][] =>
  range.sheet.grid.table(first(range), of);
const part = ({ sheet }: RangeState, area: Area): RangeState => {
  if (area.top < 0 || area.left < 0 || area.rows < 1 || area.columns < 1 || area.top + area.rows > ROWS || area.left + area.columns > COLUMNS)
    throw invalid('The range would leave the sheet');
  return { sheet, areas: [area] };
}; // prettier-ignore

const clearWhat = oneOf('All', 'Formats', 'Contents', 'Hyperlinks', 'RemoveHyperlinks');

export const rangeKind: AnyKind = kind<RangeState>('Range', {
  props: {
    address: readOnly(1, fullAddress),
    rowIndex: readOnly(1, (r) => first(r).top),
    columnIndex: readOnly(1, (r) => first(r).left),
    rowCount: readOnly(1, (r) => first(r).rows),
    columnCount: readOnly(1, (r) => first(r).columns),
    cellCount: readOnly(1, (r) => first(r).rows * first(r).columns),
    text: readOnly(1, (r) => table(r, (row, column) => shownText(r.sheet, row, column))),
    values: {
      since: 1,
      get: (r) => table(r, (row, column) => r.sheet.grid.shown(row, column)),
      put: enter,
      check: scalarOrTable,
    },
    formulas: {
      since: 1,
      get: (r) =>
        table(r, (row, column) => {
          const entry = r.sheet.grid.at(row, column);
          return entry?.formula ?? entry?.value ?? '';
        }),
      put: enter,
      check: scalarOrTable,
    },
    numberFormat: {
      since: 1,
      get: (r) => table(r, (row, column) => r.sheet.grid.format(row, column)),
      put: (r, value: unknown) => {
        if (!Array.isArray(value)) {
          if (typeof value !== 'string') throw invalid('A number format is a text');
          r.sheet.grid.paint('numberFormat', first(r), value);
          return;
        }
        let seen = 0;
        spread(r, value, (_, __, own) => {
          if (own !== null && typeof own !== 'string') throw invalid('A number format is a text');
          seen++;
        });
        if (seen > 0) r.sheet.grid.paintEach('numberFormat', first(r), value as unknown[][]);
      },
      check: scalarOrTable,
    },
    columnHidden: painted(2, 'columnHidden', false, flag),
    rowHidden: painted(2, 'rowHidden', false, flag),
    left: readOnly(10, (r) => distance(r.sheet, 'columnWidth', first(r).left)),
    top: readOnly(10, (r) => distance(r.sheet, 'rowHeight', first(r).top)),
    hyperlink: {
      since: 7,
      get: (r) => r.sheet.grid.look('hyperlink', first(r).top, first(r).left, null),
      put: (r, value: { documentReference: string; textToDisplay?: string }) => {
        const { textToDisplay } = value;
        r.sheet.book.checkReferences(`=${value.documentReference}`);
        r.sheet.grid.paint('hyperlink', first(r), value);
        if (textToDisplay !== undefined) enter(r, textToDisplay);
        // the program gives links its own look
        r.sheet.grid.paint('font.color', first(r), '#0563C1');
        r.sheet.grid.paint('font.underline', first(r), 'Single');
      },
      check: shape({ documentReference: text, screenTip: text, textToDisplay: text }),
    },
  },
  navs: shared,
  methods: {
    select: does(1, [], (r: RangeState) => {
      const { book } = r.sheet;
      if (book.active !== r.sheet) throw new OfficeError('InvalidOperation', 'Only cells of the sheet in front can be selected');
      book.selection = first(r);
      book.happened.push({ list: book.events.selection, args: { worksheetId: r.sheet.id, address: addressOf(first(r)) } });
    }),
    clear: does(1, [may(clearWhat)], (r: RangeState, what = 'All') => {
      if (what === 'All' || what === 'Contents') r.areas.forEach((area) => r.sheet.grid.clear(area));
    }),
    getCell: gives(1, () => rangeKind, [must(index), must(index)], (r: RangeState, row: number, column: number) =>
      part(r, { top: first(r).top + row, left: first(r).left + column, rows: 1, columns: 1 }),
    ),
    getRow: gives(1, () => rangeKind, [must(index)], (r: RangeState, row: number) =>
      part(r, { ...first(r), top: first(r).top + row, rows: 1 }),
    ),
    getColumn: gives(1, () => rangeKind, [must(index)], (r: RangeState, column: number) =>
      part(r, { ...first(r), left: first(r).left + column, columns: 1 }),
    ),
    getOffsetRange: gives(1, () => rangeKind, [must(number), must(number)], (r: RangeState, rows: number, columns: number) =>
      part(r, { ...first(r), top: first(r).top + rows, left: first(r).left + columns }),
    ),
    getResizedRange: gives(2, () => rangeKind, [must(number), must(number)], (r: RangeState, rows: number, columns: number) =>
      part(r, { ...first(r), rows: first(r).rows + rows, columns: first(r).columns + columns }),
    ),
    getEntireColumn: gives(1, () => rangeKind, [], (r: RangeState) => part(r, { ...first(r), top: 0, rows: ROWS })),
    getEntireRow: gives(1, () => rangeKind, [], (r: RangeState) => part(r, { ...first(r), left: 0, columns: COLUMNS })),
    getUsedRangeOrNullObject: givesOrNull(4, () => rangeKind, [may(flag)], (r: RangeState) => {
      const used = r.sheet.grid.used();
      if (!used) return null;
      const own = first(r);
      const top = Math.max(own.top, used.top);
      const left = Math.max(own.left, used.left);
      const bottom = Math.min(own.top + own.rows, used.top + used.rows);
      const right = Math.min(own.left + own.columns, used.left + used.columns);
      return bottom > top && right > left ? { sheet: r.sheet, areas: [{ top, left, rows: bottom - top, columns: right - left }] } : null;
    }),
  },
}); // prettier-ignore

export const areasKind: AnyKind = kind<RangeState>('RangeAreas', {
  props: {
    address: readOnly(9, fullAddress),
    areaCount: readOnly(9, (r) => r.areas.length),
  },
  navs: Object.fromEntries(Object.entries(shared).map(([key, own]) => [key, { ...own, since: 9 }])),
});
