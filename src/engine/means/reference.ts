/** The thresholds behind bags, pads and hoses, laid out for the help pages and the Sources sheet. */
import type { ReferenceTable } from '../reference-tables.js';
import { CLOGGED_BELOW, FAULTY_AFTER_HOURS, LEAKING_FROM } from './bag-check.js';
import { PAD_HALF_TIME } from './gel-pad.js';
import { FILM_STORAGE } from './soaker-hose.js';

export const BAG_TABLES: readonly ReferenceTable[] = [
  {
    title: 'Verdict on a timed bag, the first row that fits',
    columns: ['what the timing shows', 'from', 'unit', 'verdict'],
    rows: [
      {
        cells: ['time a full bag takes, above', FAULTY_AFTER_HOURS, 'h', 'replace'],
        certainty: 'seen',
        source:
          'guidance of a London borough council (Bromley) on tree bags: faulty if not empty within two days',
      },
      {
        cells: ['open holes ÷ holes, above', LEAKING_FROM, '–', 'replace'],
        certainty: 'assumption',
        source: 'of this model: runs faster than rated, so torn or leaking',
      },
      {
        cells: ['open holes ÷ holes, below', CLOGGED_BELOW, '–', 'flush'],
        certainty: 'assumption',
        source: 'of this model: a smaller loss is within the error of a timing',
      },
    ],
  },
];

export const PAD_TABLES: readonly ReferenceTable[] = [
  {
    title: 'Soaking a gel pad',
    columns: ['quantity', 'default, h'],
    rows: [
      {
        cells: ['time to take up half of what it can', PAD_HALF_TIME],
        certainty: 'assumption',
        source: 'of this model; general literature gives 1 to 24 h of charging by grain size',
      },
    ],
  },
];

export const CYCLE_TABLES: readonly ReferenceTable[] = [
  {
    title: 'Cycle and soak',
    columns: ['quantity', 'default, mm'],
    rows: [
      {
        cells: ['water the surface holds without running off', FILM_STORAGE],
        certainty: 'assumption',
        source: 'of this model: a quarter inch',
      },
    ],
  },
];
