/** Entry of the desk page. */
import { FUNCTIONS } from '../functions/index.js';
import described from '../generated/functions.json' with { type: 'json' };
import { startDesk } from './desk-page.js';

startDesk(
  { metadata: described.functions, implementations: FUNCTIONS },
  { inventory: 'samples/harbour-row-trees.csv', setup: 'samples/site.json' },
);
