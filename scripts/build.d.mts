export function isStale(root: string): boolean;

export const FUNCTIONS_LIMIT: number;
export function functionsSize(root: string): number;
