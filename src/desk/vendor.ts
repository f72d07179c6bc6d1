/** Loads the grid's library: files of its own beside the page, large, so that the panel does not wait for them. */
export type GridLibrary = typeof import('./grid-library.js');

/** Where scripts/build-grid.mjs puts them: the part below first. */
const ENGINE = './vendor/grid-engine.js';
const LIBRARY = './vendor/grid.js';

/** Lets the page draw and answer before what comes next. */
export const nextTask = (): Promise<void> => new Promise((resolve) => setTimeout(resolve));

/** @throws Error if the files are not there or cannot be run */
export async function gridLibrary(): Promise<GridLibrary> {
  try {
    await import(/* webpackIgnore: true */ ENGINE);
    await nextTask();
    return (await import(/* webpackIgnore: true */ LIBRARY)) as GridLibrary;
  } catch (cause) {
    const sentence = 'The grid did not load. Run "npm run build" and open the page again.';
    throw new Error(sentence, { cause });
  }
}
