// Runs in Node while the site is built: `compile` turns Python into bytecode, `snapshot` freezes the loaded runtime.
//
//   node build.mjs compile  PYODIDE_FOLDER STDLIB_IN STDLIB_OUT PACKAGES_IN PACKAGES_OUT
//   node build.mjs snapshot PYODIDE_FOLDER STDLIB PACKAGES WARM_UP SNAPSHOT_OUT
//   node build.mjs restore  PYODIDE_FOLDER SNAPSHOT WARM_UP

import { readFileSync, writeFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const here = dirname(fileURLToPath(import.meta.url));
const [command, folder, ...paths] = process.argv.slice(2);
const pyodideFolder = resolve(folder) + "/";
const { loadPyodide } = await import(pathToFileURL(join(pyodideFolder, "pyodide.mjs")).href);

const bytes = (path) => new Uint8Array(readFileSync(path));
const env = { HOME: "/home/pyodide", PYTHONNODEBUGRANGES: "1", PYTHONHASHSEED: "0" };
const common = { indexURL: pyodideFolder, enableRunUntilComplete: false, packages: [], env };

async function compile(stdlibIn, stdlibOut, packagesIn, packagesOut) {
  const pyodide = await loadPyodide(common);
  pyodide.FS.writeFile("/tmp/compile_zip.py", readFileSync(join(here, "compile.py")));
  const run = (code) => pyodide.runPython(code);
  run("import sys; sys.path.insert(0, '/tmp'); import compile_zip");
  const convert = (from, to, code) => {
    pyodide.FS.writeFile("/tmp/in.zip", bytes(from));
    run(`open('/tmp/out.zip', 'wb').write(${code})`);
    writeFileSync(to, pyodide.FS.readFile("/tmp/out.zip"));
  };
  const archive = "open('/tmp/in.zip', 'rb').read()";
  convert(stdlibIn, stdlibOut, `compile_zip.compiled_zip(${archive}, '/lib/', compile_zip.PYTHON_STDLIB_LEFT_OUT)`);
  convert(packagesIn, packagesOut, `compile_zip.compiled_zip(${archive}, '')`);
}

const call = (pyodide, requests) => {
  const door = pyodide.globals.get("answer");
  const answers = requests.map((request) => door(JSON.stringify(request)));
  door.destroy();
  return answers;
};

async function snapshot(stdlib, packages, warmUp, out) {
  const pyodide = await loadPyodide({ ...common, stdLibURL: pathToFileURL(resolve(stdlib)).href, _makeSnapshot: true });
  pyodide.unpackArchive(bytes(packages), "zip");
  pyodide.runPython(readFileSync(join(here, "warm.py"), "utf8"));
  const requests = JSON.parse(readFileSync(warmUp, "utf8"));
  call(pyodide, requests);
  pyodide.runPython("settle()");
  const image = pyodide.makeMemorySnapshot();
  writeFileSync(out, image);
  console.log(JSON.stringify({ bytes: image.length, heap: pyodide._module.HEAPU8.length }));
}

async function restore(image, warmUp) {
  const pyodide = await loadPyodide({
    ...common,
    stdLibURL: "data:application/zip;base64,UEsFBgAAAAAAAAAAAAAAAAAAAAAAAA==",
    lockFileContents: { info: JSON.parse(readFileSync(pyodideFolder + "pyodide-lock.json", "utf8")).info, packages: {} },
    _loadSnapshot: bytes(image),
  });
  const requests = JSON.parse(readFileSync(warmUp, "utf8"));
  console.log(JSON.stringify(call(pyodide, requests)));
}

await { compile, snapshot, restore }[command](...paths);
process.exit(0);
