/** What a reader who does not see, or sees little room, would stumble over in the panel. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Axe {
  run(
    context: object,
    options: object,
  ): Promise<{
    violations: { id: string; nodes: { target: unknown; failureSummary?: string }[] }[];
  }>;
}

/** Makes the checks by axe-core ready in a page. */
export const withAxe = async (page: Page): Promise<void> => void (await page.evaluate(AXE));

/** What axe finds in a part of the page, a line each. */
export const violationsIn = (page: Page, part: string): Promise<string[]> =>
  page.evaluate(async (selector) => {
    const { axe } = window as unknown as { axe: Axe };
    const found = await axe.run(
      { include: [[selector]] },
      { runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] },
    );
    return found.violations.flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => `${id}: ${JSON.stringify(target)} ${failureSummary}`),
    );
  }, part); // prettier-ignore

/** What axe finds in the panel, a line each. */
export const violations = (page: Page): Promise<string[]> => violationsIn(page, '#panel');

/** The panel as wide as a person has drawn it; without a width, as the page has it [px]. */
export const setWidth = (page: Page, width?: number): Promise<void> =>
  page.evaluate((w) => {
    const { style } = document.getElementById('panel')!;
    if (w === undefined) style.removeProperty('width');
    else style.setProperty('width', `${w}px`);
  }, width);

/** How far the panel, or anything in it that does not scroll by itself, reaches over its right edge [px]. */
export const overhang = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const panel = document.getElementById('panel')!;
    const { left } = panel.getBoundingClientRect();
    const edge = left + panel.clientLeft + panel.clientWidth;
    let most = panel.scrollWidth - panel.clientWidth;
    const visit = (parent: Element | ShadowRoot): void => {
      for (const child of parent.children) {
        if (child.matches('.unseen, option, .picture-numbers, svg')) continue;
        // what is folded away keeps the width it had when it was last laid out
        if (parent instanceof HTMLDetailsElement && !parent.open && !child.matches('summary'))
          continue;
        const { right, width } = child.getBoundingClientRect();
        if (width > 0) most = Math.max(most, right - edge);
        if (child.shadowRoot) visit(child.shadowRoot);
        visit(child);
      }
    };
    visit(panel);
    return Math.round(most);
  });
