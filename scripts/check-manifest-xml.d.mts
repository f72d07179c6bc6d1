export interface XmlElement {
  name: string;
  attributes: Record<string, string>;
  children: XmlElement[];
  text: string;
  line: number;
}
export class ManifestFault extends Error {
  readonly line: number;
}
export function parseXml(source: string): XmlElement;
export function walk(element: XmlElement): Generator<XmlElement>;
