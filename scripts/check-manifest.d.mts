import type { Reader } from './make-manifest.mjs';

export interface ManifestProject {
  version: string;
  namespace: string;
  base: string;
  read: Reader;
}
export function folderReader(folder: string): Reader;
export function manifestFaults(
  source: string,
  project: ManifestProject,
): { line: number; sentence: string }[];
