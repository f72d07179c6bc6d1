/** What if: the season planned again with one thing changed, beside the season as it is. */
import { FAMILIES, type SeasonPlan } from '../../engine/plan/model.js';
import type { SeasonInput } from '../../engine/plan/season.js';
import type { WhatIf, WhatIfRow } from '../../engine/plan/what-if.js';
import type { Units } from '../../engine/units.js';
import { shown, unitOf } from '../quantities.js';
import { cell, formula, SheetDraft, type ModelCell, type TablePlace } from '../model.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';

/** A hotter year: reference ET times this [-]. */
const HOTTER = 1.1;
/** Hours a crew works less [h], and the fewest it works. */
const HOURS_LESS = 2;
const FEWEST_HOURS = 0.5;

/** What the base of the table is not. */
export const SEPARATE =
  'Every row, the first one too, is planned from separate visits: each tree is watered when it is due, before visits are joined, before waterings are moved off full days, and with whatever the kit lacks bought. Compare the rows with each other; Plan and Estimate may need less.';

/** The questions that are asked of every season. A family whose means every tree has already is not asked for. */
export function questions({ kit, site }: SeasonInput, plan: SeasonPlan): WhatIf[] {
  const has = new Set(kit.map((d) => d.family));
  const all = new Set(plan.trees.map((t) => t.chosen.families.join('+')));
  const hours = Math.max(FEWEST_HOURS, site.crewHours - HOURS_LESS);
  return [
    { kind: 'more days', weekday: 'best' },
    ...FAMILIES.filter((f) => has.has(f) && !(all.size === 1 && all.has(f))).map((f): WhatIf => ({
      kind: 'means',
      families: [f],
    })),
    { kind: 'mulch', cover: 1 },
    { kind: 'ET0', share: HOTTER },
    { kind: 'rain', share: 0 },
    ...(hours < site.crewHours ? [{ kind: 'crew', hours } as const] : []),
  ];
}

const NUMBERS = ['treesKept', 'treesNotKept', 'treesNotPlanned', 'stressDays', 'litres', 'waterings', 'cost', 'crewDaysOver'] as const; // prettier-ignore

/** What has to be said beside a row's numbers; "" where they speak for themselves. */
export function sentenceOf(row: WhatIfRow, base: WhatIfRow): string {
  if (row === base) return 'The season as it is, from separate visits.';
  const words: string[] = [];
  if (NUMBERS.every((key) => Math.abs(row[key] - base[key]) < 1e-9)) words.push('Nothing changes.');
  if (row.stressDays < base.stressDays && row.litres > base.litres)
    words.push('Fewer stress days take more water.');
  if (row.waterings < base.waterings && row.litres > base.litres)
    words.push('Fewer waterings but larger ones: the means are chosen again for every tree.');
  if (row.treesNotPlanned > base.treesNotPlanned)
    words.push(`${row.treesNotPlanned - base.treesNotPlanned} more cannot be planned at all.`);
  if (row.note !== '') words.push(row.note);
  return words.join(' ');
}

export function whatIfSheet(
  ctx: Context,
  rows: readonly WhatIfRow[],
): Built<{ place: TablePlace }> {
  const money = ctx.plan.site.currency;
  const gal = ctx.unit('volume');
  const draft = new SheetDraft('What if', 'What if');
  draft.text([
    cell('What if', 'title'),
    cell('One thing is changed at a time and the whole season planned again.', 'note'),
    cell(SEPARATE, 'note'),
  ]);
  draft.skip();
  const whole = { width: 11, style: 'calculation', format: 'whole' } as const;
  const place = draft.table(
    'WhatIf',
    [
      { key: 'what', header: 'What is changed', width: 40, style: 'result', wrap: true },
      { key: 'kept', header: 'Trees kept', ...whole },
      { key: 'notKept', header: 'Trees not kept', ...whole },
      { key: 'notPlanned', header: 'Trees not planned', ...whole },
      { key: 'stress', header: 'Stress days, each tree counted', ...whole },
      { key: 'water', header: `Water (${gal})`, ...whole },
      { key: 'waterings', header: 'Waterings, each tree counted', ...whole },
      { key: 'cost', header: `Cost (${money})`, ...whole, format: 'two' },
      { key: 'over', header: 'Crew days over', ...whole },
      { key: 'stressMore', header: 'Stress days more or less', ...whole, style: 'result' },
      { key: 'waterMore', header: `Water more or less (${gal})`, ...whole, style: 'result' },
      { key: 'costMore', header: `Cost more or less (${money})`, ...whole, style: 'result', format: 'two' },
      { key: 'note', header: 'What the numbers do not say', width: 60, wrap: true, style: 'note' },
    ],
    rows.length,
    (i, at): ModelCell[] => {
      const row = rows[i]!;
      const base = rows[0]!;
      const volume = (r: WhatIfRow): number => ctx.show('volume', r.litres);
      const against = (key: string, value: number): ModelCell =>
        i === 0 ? null : formula(`${at.here(key, i)}-$${at.letter(key)}$${at.row(0)}`, value);
      return [
        row.name,
        row.treesKept,
        row.treesNotKept,
        row.treesNotPlanned,
        row.stressDays,
        volume(row),
        row.waterings,
        row.cost,
        row.crewDaysOver,
        against('stress', row.stressDays - base.stressDays),
        against('water', volume(row) - volume(base)),
        against('cost', row.cost - base.cost),
        sentenceOf(row, base),
      ];
    },
  ); // prettier-ignore
  draft.freeze(place.headerRow, 1).repeat(place.headerRow, place.headerRow);
  return { sheet: draft.done(), refs: { place } };
}

/** The table as text, the sentences below it. */
export function whatIfInWords(rows: readonly WhatIfRow[], units: Units, money: string): string[] {
  const whole = (value: number): string => Math.round(value).toLocaleString('en-US');
  const head = ['What if', 'kept', 'not kept', 'stress days', unitOf('volume', units), 'waterings', `cost ${money}`, 'crew days over']; // prettier-ignore
  const body = rows.map((r) => [
    r.name,
    ...[r.treesKept, r.treesNotKept, r.stressDays, shown('volume', units, r.litres), r.waterings, r.cost, r.crewDaysOver].map(whole),
  ]); // prettier-ignore
  const widths = head.map((_, c) => Math.max(...[head, ...body].map((line) => line[c]!.length)));
  const aligned = (line: string[]): string =>
    line.map((t, c) => (c === 0 ? t.padEnd(widths[c]!) : t.padStart(widths[c]!))).join('  ');
  const said = rows.slice(1).flatMap((row) => {
    const sentence = sentenceOf(row, rows[0]!);
    return sentence === '' ? [] : [`  ${row.name}: ${sentence}`];
  });
  return [...[head, ...body].map(aligned), SEPARATE, ...said];
}
