import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults, RunOptions } from 'axe-core';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe's rules, all of them, find serious or critical in the page as it stands; empty where there is nothing. */
export async function seriousFindings(page: Page): Promise<readonly string[]> {
  // The page's policy forbids added scripts; the debugger's evaluation is not bound by it.
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(AXE);
  return page.evaluate(async () => {
    const { axe } = window as unknown as { axe: { run(options: RunOptions): Promise<AxeResults> } };
    // What passes is not told of: writing that down takes longer than many rules.
    const { violations } = await axe.run({ resultTypes: ['violations'] });
    return violations
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html.slice(0, 120)).join(' | ')}`);
  });
}
