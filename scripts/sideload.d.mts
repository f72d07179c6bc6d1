import type { Server } from 'node:https';

export interface SideloadOptions {
  dryRun: boolean;
  remove: boolean;
  serveOnly: boolean;
  certs: string | undefined;
}
export interface Certificates {
  ca: Buffer;
  cert: Buffer;
  key: Buffer;
}
export function readOptions(args: readonly string[]): SideloadOptions;
export function certificatesIn(folder: string): Promise<Certificates>;
export function serveSecurely(
  folder: string,
  secrets: Pick<Certificates, 'cert' | 'key'>,
  port: number,
): Promise<Server>;
