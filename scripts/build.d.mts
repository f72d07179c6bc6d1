export function isStale(root: string): boolean;
