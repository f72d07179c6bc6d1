/** The way to the pictures from the panel: a file of its own, fetched once. */
export const loadPictures = (): Promise<typeof import('./index.js')> => import('./index.js');
