/**
 * The grid's prebuilt files put their parts on the page as globals; this names and types the ones in
 * use. They are served as they come, so no import may pull the library into our own bundle.
 */
type Core = typeof import('@univerjs/presets');
type Sheets = typeof import('@univerjs/presets/preset-sheets-core');

interface GridGlobals {
  UniverPresets: Pick<Core, 'createUniver'>;
  UniverCore: Pick<Core, 'LocaleType' | 'LifecycleStages'>;
  UniverEngineFormula: Pick<
    Sheets,
    | 'ArrayValueObject'
    | 'BaseFunction'
    | 'BooleanValueObject'
    | 'ErrorValueObject'
    | 'FormulaDataModel'
    | 'IFunctionService'
    | 'NumberValueObject'
    | 'StringValueObject'
  >;
  UniverPresetSheetsCore: Pick<Sheets, 'UniverSheetsCorePreset'>;
  UniverPresetSheetsCoreEnUS: NonNullable<Parameters<Core['createUniver']>[0]['locales']>[string];
}

export function gridParts(): GridGlobals {
  const parts = globalThis as unknown as Partial<GridGlobals>;
  if (parts.UniverPresets === undefined || parts.UniverPresetSheetsCore === undefined) {
    throw new Error('The grid did not load. Run "npm run build" and open the page again.');
  }
  return parts as GridGlobals;
}
