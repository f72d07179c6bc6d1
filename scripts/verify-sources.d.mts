import type { IncomingHttpHeaders } from 'node:http';

export interface PlacedFile {
  bytes: Buffer;
  /** undefined from a folder */
  headers: IncomingHttpHeaders | undefined;
}
export interface PlaceSource {
  name: string;
  load(path: string): Promise<PlacedFile | undefined>;
  close(): void;
}
export function folderSource(folder: string): PlaceSource;
export function webSource(base: string, options?: { ca?: string | undefined }): PlaceSource;
export function remembering(source: PlaceSource): PlaceSource & { count(): number };
