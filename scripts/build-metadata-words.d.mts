export interface Described {
  functions: { description: string; parameters: { name: string; description: string }[] }[];
}
export function translated<T extends Described>(
  described: T,
  sentences: Readonly<Record<string, string>>,
): { described: T; missing: string[]; unused: string[] };
