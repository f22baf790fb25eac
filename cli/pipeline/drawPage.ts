import { parentPort } from 'node:worker_threads';
import { renderSetPage } from '../views/page/setPage.js';

/** The program of the thread that draws a page; see `beginPage`. */
parentPort?.once('message', (question: Parameters<typeof renderSetPage>) => {
  parentPort?.postMessage(renderSetPage(...question));
});
