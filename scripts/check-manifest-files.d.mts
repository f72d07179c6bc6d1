export function pngSize(bytes: Buffer): { width: number; height: number } | undefined;
export function pathBelow(base: string, url: string): string | undefined;
