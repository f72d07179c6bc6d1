export interface Surroundings {
  platform?: NodeJS.Platform;
  env?: Record<string, string | undefined>;
  exists?: (path: string) => boolean;
}
export function candidates(
  platform: NodeJS.Platform,
  env: Record<string, string | undefined>,
): string[];
export function findBrowser(surroundings?: Surroundings): string | undefined;
export function adviceFor(platform: NodeJS.Platform): string;
