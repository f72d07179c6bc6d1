/** Sources: where every number comes from, and which numbers are assumptions. */
import { FIELD_CARD, FIELD_CARD_SOURCE, PROBES } from '../../engine/contract/field-card.js';
import { L_PER_GALLON, MM_PER_INCH } from '../../engine/units.js';
import { SITE_INPUTS } from '../../tables/site-inputs.js';
import { isAssumption, SITE_NOTES } from '../../tables/site-notes.js';
import { cell, SheetDraft } from '../model.js';
import { EQUATIONS, RULES_OF_THUMB } from '../words.js';
import type { Context } from './context.js';
import type { Built } from './inputs.js';

/** What a rule stated in gallons per inch becomes in the units shown. */
const FROM_GALLONS_PER_INCH = { US: 1, SI: L_PER_GALLON / (MM_PER_INCH / 10) };

export function sourcesSheet(ctx: Context): Built<{ low: string; high: string }> {
  const draft = new SheetDraft('Sources', 'Sources');
  draft.text([
    cell('Sources', 'title'),
    cell('Published numbers with their publication; everything else is marked assumption.', 'note'),
  ]);
  draft.skip();
  draft.text([cell('Rules of thumb for one watering, shown beside the model on Trees', 'heading')]);
  const per = `${ctx.unit('volume')} per ${ctx.unit('trunk')} of trunk`;
  const thumb = draft.table(
    'RulesOfThumb',
    [
      { key: 'rule', header: 'Rule', width: 40, wrap: true },
      { key: 'source', header: 'Published by', width: 44, wrap: true },
      {
        key: 'low',
        header: `Low (${per})`,
        width: 44,
        style: 'input',
        format: 'two',
        align: 'left',
      },
      {
        key: 'high',
        header: `High (${per})`,
        width: 14,
        style: 'input',
        format: 'two',
        align: 'left',
      },
    ],
    RULES_OF_THUMB.length,
    (i) => {
      const { rule, low, high, source } = RULES_OF_THUMB[i]!;
      const factor = FROM_GALLONS_PER_INCH[ctx.units];
      return [rule, source, low * factor, high * factor];
    },
  );
  draft.skip();
  draft.text([cell('Equations', 'heading')]);
  draft.table(
    'Equations',
    [
      { key: 'what', header: 'What', width: 40, wrap: true },
      { key: 'equation', header: 'Equation', width: 44, wrap: true },
      { key: 'source', header: 'Source of equation', width: 44, wrap: true },
      { key: 'kind', header: 'Kind', width: 14 },
    ],
    EQUATIONS.length,
    (i) => {
      const { what, equation, source, kind } = EQUATIONS[i]!;
      return [what, equation, source, kind];
    },
  );
  draft.skip();
  draft.text([cell('Field card behind the crew sheet', 'heading')]);
  const card = [
    ...FIELD_CARD.map(({ leaves, soil, act }) => ({
      says: `leaves ${leaves}, soil ${soil}: ${act}`,
      ...FIELD_CARD_SOURCE,
    })),
    ...PROBES.map(({ what, mm, act, ...from }) => ({
      says: `${what}, ${ctx.units === 'US' ? `${Math.round(mm / MM_PER_INCH)} in` : `${Math.round(mm / 10)} cm`}: ${act}`,
      ...from,
    })),
  ];
  draft.table(
    'FieldCardSources',
    [
      { key: 'publisher', header: 'Publisher', width: 40, wrap: true },
      { key: 'says', header: 'On the card', width: 44, wrap: true },
      { key: 'source', header: 'Source of the row', width: 44, wrap: true },
      { key: 'certainty', header: 'Certainty', width: 14 },
    ],
    card.length,
    (i) => {
      const { publisher, says, source, certainty } = card[i]!;
      return [publisher, says, source, certainty];
    },
  );
  draft.skip();
  draft.text([
    cell(
      'Inputs of the site: where defaults come from; values of this plan are on Site',
      'heading',
    ),
  ]);
  draft.table(
    'InputSources',
    [
      { key: 'what', header: 'Input', width: 40, wrap: true },
      { key: 'note', header: 'Meaning', width: 44, wrap: true },
      { key: 'source', header: 'Source of default', width: 44, wrap: true },
      { key: 'kind', header: 'Kind of default', width: 14 },
    ],
    SITE_INPUTS.length,
    (i) => {
      const { key, name } = SITE_INPUTS[i]!;
      const { note, source } = SITE_NOTES[key];
      return [name, note, source, isAssumption(key) ? 'assumption' : 'published'];
    },
  );
  return {
    sheet: draft.done(),
    refs: { low: thumb.range('low'), high: thumb.range('high') },
  };
}
