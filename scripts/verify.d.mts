export function readArguments(args: readonly string[]): { place: string; ca: string | undefined };
