/** The elements the panel is put together from. Two corners come later: corners/later.ts. */
import './corners/functions.js';
import './corners/repair.js';
import './parts/chosen-cell.js';
import './parts/panel-head.js';
import './parts/step-list.js';
import './steps/build.js';
import './steps/kit.js';
import './steps/rules.js';
import './steps/site.js';
import './steps/trees.js';
