/**
 * What the desk uses of the grid's library. `scripts/build-grid.mjs` bundles this file once, into one of its own beside
 * the page; our own bundles name its types only, so that the library never gets into them.
 */
export { createUniver, LocaleType } from '@univerjs/presets';
export {
  ArrayValueObject,
  BaseFunction,
  BooleanValueObject,
  ErrorValueObject,
  FormulaDataModel,
  IDependencyManagerService,
  IFunctionService,
  NumberValueObject,
  StringValueObject,
  UniverSheetsCorePreset,
} from '@univerjs/presets/preset-sheets-core';
export { default as english } from '@univerjs/presets/preset-sheets-core/locales/en-US';
