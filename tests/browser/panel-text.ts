/** The text of an element of the panel with that of all elements inside it; `innerText` stops at each of them. */
import type { Locator } from 'playwright-core';

/** White space is one blank. Buttons are left out: tests find them by their role and name. */
export const textOf = (locator: Locator): Promise<string> =>
  locator.evaluate((element) => {
    const read = (node: Node): string => {
      if (node instanceof Text) return node.data;
      if (!(node instanceof Element) || node.matches('style, option, button.act, [hidden]'))
        return '';
      return [...(node.shadowRoot ?? node).childNodes].map(read).join(' ');
    };
    return read(element).replace(/\s+/g, ' ').trim();
  });
