/** Corners that are files of their own, so that the steps do not wait for them: fetched when one is first opened. */
import type { Place } from '../session.js';

const FILES: Partial<Record<Place, () => Promise<unknown>>> = {
  contract: () => import('./contract.js'),
  'field-check': () => import('./field-check.js'),
};

/** What is still to be fetched before a place can be shown; undefined where nothing is. */
export function stillToFetch(place: Place): (() => Promise<unknown>) | undefined {
  return customElements.get(`sb-${place}`) ? undefined : FILES[place];
}
