export type SideloadStep = { copy: [string, string] } | { take: string } | { run: string[] };
export function sideloadPlan(at: {
  platform: string;
  home: string;
  manifest: string;
  id: string;
  remove: boolean;
}): { steps: SideloadStep[]; words: string[] };
export function stepWords(step: SideloadStep): string;
export function doStep(step: SideloadStep): void;
