/** The elements the panel is put together from. A corner whose file is not listed here is not offered. */
import './corners/contract.js';
import './corners/field-check.js';
import './corners/functions.js';
import './corners/repair.js';
import './parts/chosen-cell.js';
import './parts/kept.js';
import './parts/panel-head.js';
import './parts/step-list.js';
import './steps/build.js';
import './steps/kit.js';
import './steps/rules.js';
import './steps/site.js';
import './steps/trees.js';
