export interface PlaceSettings {
  base: string;
  namespace: string;
}
/** A file by its path below the base; undefined where there is none. */
export type Reader = (path: string) => Buffer | undefined;

export const DEVELOPMENT: Readonly<PlaceSettings>;
export const PRODUCTION_ID: string;
export function settingsFrom(env: Readonly<Record<string, string | undefined>>): PlaceSettings;
export function manifestFor(source: string, settings: PlaceSettings): string;
export function describedAt<T extends { functions: { id: string; helpUrl: string }[] }>(
  described: T,
  base: string,
): T;
export function writePlace(root: string, dist: string, settings: PlaceSettings): void;
export function stampText(settings: PlaceSettings): string;
export function readStamp(root: string): PlaceSettings | undefined;
