/** Asks axe what is wrong with a page for people who cannot see, hear or point well. */
import axe from 'axe-core';
import type { Page } from 'playwright-core';

const TAGS = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];

/** One line a finding. The source goes in by evaluate: the content security policy lets no script tag in. */
export async function axeFindings(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  const results = await page.evaluate(
    (tags) =>
      (window as unknown as { axe: typeof axe }).axe.run(document, {
        runOnly: { type: 'tag', values: tags },
        // Of what passes one node a rule is told: naming every one of them takes longer than checking them.
        resultTypes: ['violations'],
      }),
    TAGS,
  );
  if (results.passes.length === 0) throw new Error('axe checked nothing');
  return results.violations.flatMap(({ id, help, nodes }) =>
    nodes.map((node) => `${id}: ${help} at ${node.target.join(' ')} (${node.html.slice(0, 120)})`),
  );
}
