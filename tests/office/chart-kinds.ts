/** Charts with their series and axes, as the host offers them. */
import { axis, chartWords, type AxisState, type ChartState, type RangeState, type SeriesState, type SheetState, type TextState } from './book.js'; // prettier-ignore
import { invalid } from './errors.js';
import { anything, does, flag, gives, kept, kind, may, must, nav, number, oneOf, readOnly, text, type AnyKind } from './members.js'; // prettier-ignore
import { addressOf } from './areas.js';
import { fullAddress, isRange, isRangeOrText } from './ranges.js';

const TYPES = ['Line', 'LineMarkers', 'ColumnClustered', 'ColumnStacked', 'BarClustered'];

const lineKind = kind<SeriesState>('ChartLineFormat', {
  props: {
    color: kept<SeriesState>(1, 'color', text),
    lineStyle: kept<SeriesState>(7, 'lineStyle', oneOf('None', 'Continuous', 'Dash', 'DashDot', 'Dot', 'RoundDot')), // prettier-ignore
    weight: kept<SeriesState>(7, 'weight', number),
  },
});
const fillKind = kind<SeriesState>('ChartFill', {
  methods: {
    setSolidColor: does(1, [must(text)], (s: SeriesState, color: string) => void (s.color = color)),
  },
});
const seriesFormatKind = kind<SeriesState>('ChartSeriesFormat', {
  navs: {
    line: nav<SeriesState>(1, () => lineKind, (s) => s),
    fill: nav<SeriesState>(1, () => fillKind, (s) => s),
  },
}); // prettier-ignore

function points(range: RangeState): string {
  const { rows, columns } = range.areas[0]!;
  if (rows > 1 && columns > 1) throw invalid('The values of a series are one row or one column');
  return fullAddress(range);
}
const seriesKind: AnyKind = kind<SeriesState>('ChartSeries', {
  props: {
    name: kept<SeriesState>(1, 'name', text),
    chartType: kept<SeriesState>(7, 'chartType', oneOf(...TYPES)),
    markerStyle: kept<SeriesState>(7, 'markerStyle', oneOf('None', 'Automatic', 'Square', 'Circle')), // prettier-ignore
    smooth: kept<SeriesState>(7, 'smooth', flag),
    gapWidth: kept<SeriesState>(7, 'gapWidth', number),
  },
  navs: { format: nav<SeriesState>(1, () => seriesFormatKind, (s) => s) },
  methods: {
    setValues: does(7, [must(isRange)], (s: SeriesState, range: RangeState) => void (s.values = points(range))),
    setXAxisValues: does(7, [must(isRange)], (s: SeriesState, range: RangeState) => void (s.categories = points(range))),
  },
}); // prettier-ignore

const newSeries = (chart: ChartState, name: string, values = ''): SeriesState => {
  const made: SeriesState = { name, chartType: chart.chartType, values, categories: '', color: '', lineStyle: 'Continuous', weight: 1, markerStyle: 'Automatic', smooth: false, gapWidth: 150 }; // prettier-ignore
  chart.series.push(made);
  return made;
};
const seriesListKind = kind<ChartState>('ChartSeriesCollection', {
  props: { count: readOnly(1, (c) => c.series.length) },
  methods: {
    add: gives(7, () => seriesKind, [may(text), may(number)], (c: ChartState, name = '') => newSeries(c, name)),
    getItemAt: gives(1, () => seriesKind, [must(number)], (c: ChartState, at: number) => c.series[at]),
  },
  items: { kind: () => seriesKind, of: (c) => c.series },
}); // prettier-ignore

const fontKind = kind<TextState>('ChartFont', {
  props: {
    size: kept<TextState>(1, 'size', number),
    color: kept<TextState>(1, 'color', text),
    name: kept<TextState>(1, 'name', text),
    bold: kept<TextState>(1, 'bold', flag),
  },
});
const withFont = (name: string): AnyKind =>
  kind<TextState>(name, { navs: { font: nav<TextState>(1, () => fontKind, (t) => t) } }); // prettier-ignore
const titleFormatKind = withFont('ChartTitleFormat');
const axisTitleFormatKind = withFont('ChartAxisTitleFormat');
const axisFormatKind = withFont('ChartAxisFormat');
const titleKind = kind<TextState>('ChartTitle', {
  props: { text: kept<TextState>(1, 'text', text), visible: kept<TextState>(1, 'visible', flag) },
  navs: { format: nav<TextState>(1, () => titleFormatKind, (t) => t) },
}); // prettier-ignore
const axisTitleKind = kind<TextState>('ChartAxisTitle', {
  props: {
    text: {
      since: 1,
      get: (t) => t.text,
      put: (t, value: string) => Object.assign(t, { text: value, visible: true }),
      check: text,
    },
    visible: kept<TextState>(1, 'visible', flag),
  },
  navs: { format: nav<TextState>(1, () => axisTitleFormatKind, (t) => t) },
}); // prettier-ignore

const gridlinesKind = kind<{ visible: boolean }>('ChartGridlines', {
  props: { visible: kept<{ visible: boolean }>(1, 'visible', flag) },
});
const axisKind = kind<AxisState>('ChartAxis', {
  props: {
    numberFormat: kept<AxisState>(8, 'numberFormat', text),
    categoryType: kept<AxisState>(7, 'categoryType', oneOf('Automatic', 'TextAxis', 'DateAxis')),
    tickLabelSpacing: kept<AxisState>(7, 'tickLabelSpacing', anything),
    tickMarkSpacing: kept<AxisState>(7, 'tickLabelSpacing', number),
    textOrientation: kept<AxisState>(8, 'textOrientation', anything),
  },
  navs: {
    title: nav<AxisState>(1, () => axisTitleKind, (a) => a.title),
    format: nav<AxisState>(1, () => axisFormatKind, (a) => a.font),
    majorGridlines: nav<AxisState>(1, () => gridlinesKind, (a) => a.gridlines),
  },
}); // prettier-ignore
const axesKind = kind<ChartState>('ChartAxes', {
  navs: {
    categoryAxis: nav<ChartState>(1, () => axisKind, (c) => c.category),
    valueAxis: nav<ChartState>(1, () => axisKind, (c) => c.value),
  },
}); // prettier-ignore
const legendKind = kind<ChartState['legend']>('ChartLegend', {
  props: {
    visible: kept<ChartState['legend']>(1, 'visible', flag),
    position: kept<ChartState['legend']>(1, 'position', oneOf('Top', 'Bottom', 'Left', 'Right')),
  },
});

const corner = (given: RangeState | string): string =>
  typeof given === 'string' ? given : addressOf(given.areas[0]!);
const chartKind: AnyKind = kind<ChartState>('Chart', {
  props: {
    name: kept<ChartState>(1, 'name', text),
    chartType: kept<ChartState>(7, 'chartType', oneOf(...TYPES)),
  },
  navs: {
    title: nav<ChartState>(1, () => titleKind, (c) => c.title),
    axes: nav<ChartState>(1, () => axesKind, (c) => c),
    legend: nav<ChartState>(1, () => legendKind, (c) => c.legend),
    series: nav<ChartState>(1, () => seriesListKind, (c) => c),
  },
  methods: {
    delete: does(1, [], (c: ChartState) => void c.sheet.charts.splice(c.sheet.charts.indexOf(c), 1)),
    setPosition: does(1, [must(isRangeOrText), may(isRangeOrText)], (c: ChartState, from: RangeState | string, to: RangeState | string = '') => void (c.position = [corner(from), corner(to)])),
  },
}); // prettier-ignore

export const chartsKind: AnyKind = kind<SheetState>('ChartCollection', {
  props: { count: readOnly(1, (s) => s.charts.length) },
  methods: {
    add: gives(1, () => chartKind, [must(oneOf(...TYPES)), must(isRange), may(oneOf('Auto', 'Columns', 'Rows'))], (sheet: SheetState, type: string, source: RangeState): ChartState => {
      const made: ChartState = { name: `Chart ${sheet.charts.length + 1}`, sheet, chartType: type, title: chartWords(), legend: { visible: true, position: 'Right' }, category: axis(), value: axis(), series: [], position: ['', ''] };
      const { top, left, rows, columns } = source.areas[0]!;
      for (let c = 0; c < columns; c++)
        newSeries(made, `Series${c + 1}`, fullAddress({ sheet: source.sheet, areas: [{ top, left: left + c, rows, columns: 1 }] }));
      sheet.charts.push(made);
      return made;
    }),
  },
  items: { kind: () => chartKind, of: (s) => s.charts },
}); // prettier-ignore
