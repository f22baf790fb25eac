import { describe, expect, it } from 'vitest';
import { beginPage } from '../../../cli/pipeline/pageDrawer.js';
import { renderSetPage } from '../../../cli/views/page/setPage.js';
import { sampleSet } from '../views/page/sampleSet.js';

const OPTIONS = { filmHref: 'row.mp4', figureOnly: false, about: { note: 'heels <raised>' } };
/** The script is the text of built code on the one side, of sources on the other, and the page names its digest. */
const withoutScript = (page: string) =>
  page.replace(/<script>[\s\S]*?<\/script>/g, '').replace(/sha256-[\w+/]+=/, '');

describe('a page drawn in a thread of its own', () => {
  it('is the page that this one draws', async () => {
    const { analysis, track } = sampleSet();
    const drawer = beginPage();
    const drawn = await drawer.draw(analysis, track, OPTIONS);
    drawer.close();
    const here = renderSetPage(analysis, track, OPTIONS);
    expect(here.length).toBeGreaterThan(50_000);
    expect(withoutScript(drawn)).toBe(withoutScript(here));
  });

  it('is drawn here where the thread has gone', async () => {
    const { analysis, track } = sampleSet({ repsPerSide: 2 });
    const drawer = beginPage();
    drawer.close();
    expect(await drawer.draw(analysis, track, OPTIONS)).toBe(renderSetPage(analysis, track, OPTIONS));
  });
});
