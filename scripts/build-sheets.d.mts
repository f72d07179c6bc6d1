export const HOLDER: string;
export const PREFIX: string;
export function sheetsScript(): Promise<string>;
