/** What the Trees step offers beside what it shows: loaded after it. */
import './assumed-values.js';
import './fill-blanks.js';
import './live-figures.js';
