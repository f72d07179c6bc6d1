/**
 * A sheet of its own for what timers water, on days on which no crew goes out: somebody must set them and look at the hoses. Every
 * place is a line with a box and room for a reading, days with the same lines stand together. Common practice, no source.
 */
import type { Content, ContentSection, TableCell } from 'pdfmake/interfaces.js';
import { civil, type Day } from '../../engine/dates.js';
import type { CrewSpeech } from '../crew-speech.js';
import type { Context } from '../sheets/context.js';
import { daySpans, runSentences, runsFacts } from '../timer-speech.js';
import {
  aroundSheet,
  BESIDE,
  BOX,
  box,
  heeded,
  MARGIN,
  paperOf,
  signed,
  TOGETHER,
} from './crew-paper.js';
import { fixedWidths, PAPER_WIDTH } from './pdf.js';
import { byHours, type RunDays, type TimerRun } from './timers.js';

/** Box, place, start, run, reading [pt]. */
const WIDTHS = [BOX + 2, '*', 90, 176, 66] as const;
/** Days or stretches of days in a head that every page repeats; more stand once below it. */
const MOST_DAYS = 8;

const TABLE_LINES = {
  hLineWidth: (i: number) => (i === 0 ? 2.5 : i <= 2 ? 1 : 0.75),
  vLineWidth: (i: number) => (i === 0 || i >= 4 ? 1 : 0),
  paddingLeft: () => 5,
  paddingRight: () => 3,
  paddingTop: () => 3,
  paddingBottom: () => 4,
};

/** Lines of these days on paper, in one language. */
export const timerLines = (all: readonly RunDays[]): number =>
  all.reduce((sum, { runs }) => sum + runs.length, 0);

function line(run: TimerRun, say: CrewSpeech): TableCell[] {
  const { site, address, ids, counts, note, start, runs, turns } = runSentences(run, say);
  const under = [[address, ...counts].filter(Boolean).join(' · '), ids, note];
  return [
    box(),
    { stack: [...(site === '' ? [] : [{ text: site, bold: true }]), ...under.filter(Boolean)] },
    start,
    { stack: [{ text: runs, bold: true }, ...(turns === '' ? [] : [turns])] },
    '',
  ];
}

/** Over all columns of the table. */
const across = (content: { text?: string; stack?: Content[]; bold?: boolean }): TableCell[] => [
  { colSpan: 5, ...content } as TableCell, {}, {}, {}, {},
]; // prettier-ignore

/** Runs with the same hours, on the same days. */
function runTable(ctx: Context, days: readonly Day[], runs: readonly TimerRun[], say: CrewSpeech): Content {
  const { word } = say;
  const spans = daySpans(days, say);
  const few = spans.length <= MOST_DAYS;
  const [first, last] = [days[0]!, days.at(-1)!].map((day) => say.weekDay(day));
  const title = few ? spans.join(', ') : `${first} – ${last}: ${say.count(days.length, 'day', 'days')}`;
  return {
    table: {
      widths: fixedWidths(WIDTHS, PAPER_WIDTH[paperOf(ctx)] - 2 * MARGIN, BESIDE),
      headerRows: 2,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      body: [
        across({ stack: [{ text: title, bold: true, fontSize: 15 }, runsFacts(runs, say)] }),
        ['', word('where'), word('startBetween'), word('runsFor'), word('reading')],
        ...(few ? [] : [across({ text: spans.join(', '), bold: true })]),
        ...runs.map((run) => line(run, say)),
      ],
    },
    layout: TABLE_LINES,
    unbreakable: runs.length <= TOGETHER,
    margin: [0, 0, 0, 6],
  };
} // prettier-ignore

/** `Tue 8 Jun 2027`, `Tue 8 Jun – Sat 12 Jun 2027` */
function asked([from, to]: readonly [Day, Day], say: CrewSpeech): string {
  if (from === to) return say.fullDay(from);
  const sameYear = civil(from).year === civil(to).year;
  return `${sameYear ? say.weekDay(from) : say.fullDay(from)} – ${say.fullDay(to)}`;
}

/** @param days - first and last day asked for, in whose head they stand */
export function timerSection(
  ctx: Context,
  all: readonly RunDays[],
  days: readonly [Day, Day],
  say: CrewSpeech,
): ContentSection {
  const title = `${say.word('timerSheet')} · ${asked(days, say)}`;
  const tables = all.flatMap((each) =>
    byHours(each.runs).map((runs) => ({
      lines: runs.length,
      content: runTable(ctx, each.days, runs, say),
    })),
  );
  const last = tables.at(-1);
  return {
    section: [
      { text: title, bold: true, fontSize: 22 },
      heeded([say.word('timerSet'), say.word('timerLook'), ...say.cautions([])]),
      ...tables.slice(0, -1).map(({ content }) => content),
      // never a page with the signature alone where its lines fit beside it
      {
        stack: [...(last ? [last.content] : []), signed(say)],
        unbreakable: (last?.lines ?? 0) <= TOGETHER,
      },
    ],
    // the days stand in the head of every table
    ...aroundSheet(ctx, say, say.word('timerSheet')),
  };
}
