import type { PlaceSettings } from './make-manifest.mjs';

export function isStale(root: string, place?: PlaceSettings): boolean;
export function environmentFor(
  args: readonly string[],
  env: Readonly<Record<string, string | undefined>>,
): Record<string, string | undefined>;
export const FUNCTIONS_LIMIT: number;
export function functionsSize(root: string): number;
