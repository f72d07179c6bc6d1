export interface XmlElement {
  name: string;
  attributes: Record<string, string>;
  children: XmlElement[];
  text: string;
}
export function parseXml(source: string): XmlElement;
export function pngSize(bytes: Buffer): { width: number; height: number } | undefined;
export function manifestFaults(
  source: string,
  project: { root: string; version: string; namespace: string },
): string[];
