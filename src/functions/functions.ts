/** Entry of the custom-functions runtime: ties every id of functions.json to its function. */
import { FUNCTIONS } from './index.js';

for (const [id, implementation] of Object.entries(FUNCTIONS))
  CustomFunctions.associate(id, implementation);
