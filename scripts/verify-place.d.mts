import type { PlaceSource } from './verify-sources.mjs';
export function placeFaults(source: PlaceSource, address?: string): Promise<string[]>;
