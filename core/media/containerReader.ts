import { parentPort, workerData } from 'node:worker_threads';
import { readContainerFactsHere } from './readContainer.js';

/** The program of the thread that reads a container; see `readContainerFacts`. */
parentPort?.postMessage(await readContainerFactsHere(String(workerData)));
