export function staleReason(root: string): string | undefined;
