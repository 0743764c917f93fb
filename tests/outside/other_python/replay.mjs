// Runs CPython of another version (as WebAssembly, the npm package `pyodide`) and gives every verdict
// of a ledger again. Arguments: folder of pure Python packages, the repository, the ledger.
import { loadPyodide } from "pyodide";

const [packages, repository, ledger] = process.argv.slice(2);
const python = await loadPyodide();
for (const [outside, inside] of [[packages, "/packages"], [repository, "/repo"], [ledger, "/ledger"]]) {
  python.FS.mkdirTree(inside);
  python.FS.mount(python.FS.filesystems.NODEFS, { root: outside }, inside);
}
python.runPython(`
import json, sys
sys.dont_write_bytecode = True
sys.path[:0] = ["/packages", "/repo/src"]
from pathlib import Path
from sootsayer.ledger.chain import check
from sootsayer.ledger.folder import ledger_in
from sootsayer.ledger.reading import records
from sootsayer.ledger.replaying import replay
there = ledger_in(Path("/ledger"))
found = [replay(there, each).again.value for each in records(there) if each.kind == "verdict"]
print(json.dumps({"python": sys.version.split()[0], "head": check(there).head, "found": found}))
`);
