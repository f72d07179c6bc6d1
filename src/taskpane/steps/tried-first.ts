/** Why nothing is written or saved while the room holds another plan than the kept one. */
import type { Session } from '../session.js';
import { trialOf } from '../trial.js';
import { buildWords } from '../words/build.js';
import { enoughWords } from '../words/enough.js';

export const triedFirst = (session: Session): string =>
  trialOf(session).isLent
    ? enoughWords(session.language).busy
    : buildWords(session.language).trial.first;
