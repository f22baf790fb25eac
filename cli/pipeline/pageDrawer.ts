import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Worker } from 'node:worker_threads';
import type { renderSetPage } from '../views/page/setPage.js';

type PageQuestion = Parameters<typeof renderSetPage>;

/** Draws the page of one set. */
export interface PageDrawer {
  /** The page as one HTML text, as `renderSetPage` makes it. */
  readonly draw: (...question: PageQuestion) => Promise<string>;
  /** Lets go of the thread; to be called whether a page was drawn or not. */
  readonly close: () => void;
}

/**
 * Makes ready to draw a page, in a thread of its own: to load what draws charts takes longer than to draw them, and a
 * set can be scored meanwhile. Where the thread fails, this one draws.
 */
export function beginPage(): PageDrawer {
  const program = fileURLToPath(new URL(COMPILED_DRAWER, import.meta.url));
  // From source and never built (single unit tests) there is no program for the thread.
  const worker = existsSync(program) ? new Worker(program) : null;
  // Nobody waits for it until there is something to draw.
  worker?.unref();
  const drawn = new Promise<string | null>((settle) => {
    worker?.once('message', settle);
    worker?.once('error', () => settle(null));
    worker?.once('exit', () => settle(null));
    if (worker === null) settle(null);
  });
  return {
    async draw(...question) {
      worker?.ref();
      worker?.postMessage(question);
      const page = await drawn;
      if (page !== null) return page;
      const { renderSetPage } = await import('../views/page/setPage.js');
      return renderSetPage(...question);
    },
    close: () => void worker?.terminate(),
  };
}

const COMPILED_DRAWER = import.meta.url.endsWith('.ts')
  ? '../../dist/cli/pipeline/drawPage.js'
  : './drawPage.js';
