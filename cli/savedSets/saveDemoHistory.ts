import { demoHistory } from '../history/demo/demoHistory.js';
import { withHistory } from '../history/file/history.js';
import { historyFile } from '../history/file/location.js';
import { saveSet } from '../history/sets/saveSet.js';

/** `tempofilm demo-history`: invented sets, each marked so. Doing it again replaces them instead of adding more. */
export function saveDemoHistory(named: string): void {
  const file = historyFile(named);
  const sets = demoHistory();
  withHistory(file, 'writing', (history) => {
    for (const set of sets) saveSet(history, set);
  });
  process.stdout.write(
    `Saved ${sets.length} invented sets in ${file}\nSee them with: tempofilm history row --history ${named}\n`,
  );
}
