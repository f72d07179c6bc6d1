import type { RequestListener, Server } from 'node:http';
export function resolveFile(folder: string, urlPath: string): string | undefined;
export function fileHandler(folder: string): RequestListener;
export function serve(folder: string, port?: number): Promise<{ server: Server; url: string }>;
