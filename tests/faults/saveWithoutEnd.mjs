// Saves invented sets one after the other until it is killed, and prints the number of each once it is reported saved.
// Arguments: the history file, a name for this writer, how many sets to save at most.
import { demoHistory } from '../../dist/cli/history/demo/demoHistory.js';
import { openHistory } from '../../dist/cli/history/file/history.js';
import { saveSet } from '../../dist/cli/history/sets/saveSet.js';

const [file, writer, most] = process.argv.slice(2);
const history = openHistory(file, 'writing');
const sets = demoHistory();
const track = { film: { file: 'row.mp4' }, request: { exercise: { id: 'squat', name: 'Squat' } }, bytes: new Uint8Array(60_000) };
process.stdout.write('open\n');
for (let number = 0; number < Number(most); number += 1) {
  const film = `${writer} ${number}`;
  saveSet(history, { ...sets[number % sets.length], filmKey: film, track });
  process.stdout.write(`${film}\n`);
}
history.close();
