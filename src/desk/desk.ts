/** Entry of the desk page. */
import { FUNCTIONS } from '../functions/index.js';
import described from '../generated/functions.json' with { type: 'json' };
import { planner } from '../taskpane/planning.js';
import { startDesk } from './desk-page.js';

startDesk(
  planner,
  { metadata: described.functions, implementations: FUNCTIONS },
  'samples/inventory.csv',
);
