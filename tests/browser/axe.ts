import { AxeBuilder } from '@axe-core/playwright';
import { expect, type Page } from '@playwright/test';

// WCAG 2.2, levels A and AA, as far as axe-core tests them.
const levels = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

export async function expectNoFaults(page: Page) {
  const { violations } = await new AxeBuilder({ page }).withTags(levels).analyze();
  const faults = violations.map((v) => ({
    rule: v.id,
    where: v.nodes.slice(0, 4).map((n) => `${n.target.join(' ')}: ${n.failureSummary}`),
  }));
  expect(faults).toEqual([]);
}
