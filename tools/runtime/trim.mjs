// Writes the part of the runtime's own script that a start from the snapshot can come to. Runs in Node while the site is built.
//
//   node trim.mjs PYODIDE_FOLDER SCRIPT_OUT USER...
//
// Pyodide's script is made for every library that may be loaded beside Python, with graphics, sound and sockets, and with it each of the wasm's
// several thousand functions is given two names and a place in a table before Python begins. The pages load no such library. Left are what is done in
// any case, what the wasm asks for, and what these mention, over and over; a name counts as mentioned wherever it stands. The USERs are the
// scripts that the result is used by: what they mention stays, too. A plain start, which is what a page falls back on, uses the whole script.

import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join, resolve } from "node:path";

const [folder, out, ...users] = process.argv.slice(2);
const { parse } = createRequire(resolve(folder, "package.json"))("acorn");
const wasm = new WebAssembly.Module(readFileSync(join(folder, "pyodide.asm.wasm")));
const imports = WebAssembly.Module.imports(wasm);
const asked = new Set(imports.filter(({ kind }) => kind === "function").map(({ name }) => name));
let source = readFileSync(join(folder, "pyodide.asm.mjs"), "utf8");

/** @param {string} from @param {string} to */
function replace(from, to) {
  const times = source.split(from).length - 1;
  if (times !== 1) throw new Error(`${times} times, not once, in the runtime's script: ${from}`);
  source = source.replace(from, () => to);
}

// Functions of the script whose place in the table the wasm asks for: those that draw on a graphics card get none, the few others theirs.
const placed = imports.filter(({ kind }) => kind !== "function");
if (placed.some(({ module }) => module !== "GOT.func")) throw new Error("the wasm asks for more than functions and their places");
for (const { name } of placed) if (!name.startsWith("emscripten_gl")) asked.add(name);
replace('{value:"i32",mutable:true},-1)', '{value:"i32",mutable:true},symName.startsWith("emscripten_gl")?0:-1)');
// What the wasm gives is noted for libraries that are loaded later; of it all, only where Python begins is looked up.
replace('mergeLibSymbols(wasmExports,"main")', 'mergeLibSymbols({main:wasmExports["main"],__main_argc_argv:wasmExports["__main_argc_argv"]},"main")');
replace("updateGOT(origExports);", "");
replace("functionsInTableMap=new WeakMap;updateTableMap(0,wasmTable.length)", "functionsInTableMap=new WeakMap");
// Done in any case, for graphics and sound.
replace("registerPostMainLoop(()=>SDL.audio?.queueNewAudioData?.());", "");
replace("for(let i=0;i<32;++i)tempFixedLengthArray.push(new Array(i));", "");
for (const kind of ["Float", "Int"]) {
  const buffers = `miniTempWebGL${kind}Buffers`;
  replace(`for(var i=0;i<=288;++i){${buffers}[i]=${buffers}Storage.subarray(0,i)}`, "");
}
// A canvas and file systems that nothing mounts, which are only named.
const EMPTY = new Set(["Browser", "IDBFS", "WORKERFS", "PROXYFS"]);

// ---- what the script consists of ---------------------------------------------------------------------------------------------

/** @typedef {{ names: Set<string>, properties: Set<string> }} Mentions */

function* within(node) {
  yield node;
  for (const value of Object.values(node)) {
    for (const each of Array.isArray(value) ? value : [value]) if (typeof each?.type === "string") yield* within(each);
  }
}

/** Every name and every name of a property in a piece of the script; what stands in a text may be the name of a property. */
function mentions(piece) {
  const names = new Set();
  const properties = new Set();
  const isNoName = new Set();
  for (const node of within(piece)) {
    if (node.type === "MemberExpression" && !node.computed) {
      isNoName.add(node.property);
      properties.add(node.property.name);
    } else if (/^(Property|MethodDefinition|PropertyDefinition)$/.test(node.type) && !node.computed && !node.shorthand) {
      isNoName.add(node.key);
    } else if (node.type === "Literal" && typeof node.value === "string") properties.add(node.value);
    else if (node.type === "TemplateElement") properties.add(node.value.cooked);
    else if (node.type === "ObjectPattern") for (const { key } of node.properties) if (key) properties.add(key.name);
    if (node.type === "Identifier" && !isNoName.has(node)) names.add(node.name);
  }
  return { names, properties };
}

const MADE = new Set(["Map", "Set", "WeakMap", "WeakSet", "Array", "ArrayBuffer", "Uint8Array", "Int32Array", "Float32Array"]);

/** Whether to work a value out does nothing else. */
function isQuiet(node) {
  switch (node?.type) {
    case undefined:
    case "Literal":
    case "Identifier":
    case "FunctionExpression":
    case "ArrowFunctionExpression":
    case "ClassExpression":
      return true;
    case "ArrayExpression":
      return node.elements.every(isQuiet);
    case "ObjectExpression":
      return node.properties.every((each) => each.type === "Property" && !each.computed && isQuiet(each.value));
    case "TemplateLiteral":
      return node.expressions.every(isQuiet);
    case "UnaryExpression":
      return isQuiet(node.argument);
    case "MemberExpression":
      return isQuiet(node.object);
    case "NewExpression":
      return MADE.has(node.callee.name) && node.arguments.every(isQuiet);
    case "BinaryExpression":
    case "LogicalExpression":
      return isQuiet(node.left) && isQuiet(node.right);
    default:
      return false;
  }
}

const program = parse(source, { ecmaVersion: "latest", sourceType: "module" });
const whole = program.body.find(({ type }) => type === "FunctionDeclaration");

/** @type {Map<string, Mentions[]>} What is mentioned by what has a name; a property of the module is named with a dot before it. */
const mentionedBy = new Map();
/** @type {Mentions[]} What is mentioned in any case. */
const roots = users.map((file) => ({ names: new Set(), properties: new Set(readFileSync(file, "utf8").match(/[\w$]+/g)) }));
/** @type {{ start: number, end: number, text: () => string }[]} What may be left out. */
const pieces = [];
const reached = new Set();

const note = (name, node) => mentionedBy.set(name, [...(mentionedBy.get(name) ?? []), mentions(node)]);
const piece = ({ start, end }, text) => pieces.push({ start, end, text });
const textOf = ({ start, end }) => source.slice(start, end);
const keyOf = ({ key }) => key.name ?? key.value;

/** The statements of one function, those that are wanted. */
function chosen(node, isWanted) {
  return `function ${node.id.name}(wasmExports){${node.body.body.filter(isWanted).map(textOf).join("")}}`;
}

for (const statement of whole.body.body) {
  const assigned = statement.expression;
  if (statement.id?.name === "assignWasmExports") {
    const target = (each) => each.expression.left.name;
    for (const each of statement.body.body) mentionedBy.set(`.${target(each)}`, [{ names: new Set([target(each)]), properties: new Set() }]);
    piece(statement, () => chosen(statement, (each) => reached.has(target(each)) || reached.has(`.${target(each)}`)));
  } else if (statement.type === "FunctionDeclaration") {
    note(statement.id.name, statement);
    piece(statement, () => (reached.has(statement.id.name) ? textOf(statement) : ""));
  } else if (statement.type === "VariableDeclaration") {
    const parts = statement.declarations.map((each) => {
      const { name } = each.id;
      if (name === "wasmImports") {
        const given = each.init.properties.filter((property) => asked.has(keyOf(property)));
        if (given.length !== asked.size) throw new Error("the script gives not all that the wasm asks for");
        roots.push(...given.map((property) => mentions(property.value)));
        return () => `${name}={${given.map(textOf).join(",")}}`;
      }
      if (EMPTY.has(name)) return () => (reached.has(name) ? `${name}={}` : "");
      if (name && isQuiet(each.init)) {
        note(name, each);
        return () => (reached.has(name) ? textOf(each) : "");
      }
      roots.push(mentions(each));
      return () => textOf(each);
    });
    piece(statement, () => {
      const left = parts.map((part) => part()).filter(Boolean);
      return left.length ? `${statement.kind} ${left.join(",")};` : "";
    });
  } else if (assigned?.type === "AssignmentExpression" && assigned.left.object?.type === "Identifier" && isQuiet(assigned.right)) {
    const { object, property } = assigned.left;
    const name = object.name === "Module" ? `.${property.name ?? property.value}` : object.name;
    note(name, assigned.right);
    piece(statement, () => (reached.has(name) ? textOf(statement) : ""));
  } else {
    roots.push(mentions(statement));
  }
}

// ---- what of it is come to ---------------------------------------------------------------------------------------------------

for (const queue = [...roots, { names: new Set(["assignWasmExports"]), properties: new Set() }]; queue.length; ) {
  const { names, properties } = queue.pop();
  for (const name of [...names, ...[...properties].map((property) => `.${property}`)]) {
    if (reached.has(name)) continue;
    reached.add(name);
    if (!EMPTY.has(name)) queue.push(...(mentionedBy.get(name) ?? []));
  }
}

let left = "";
let done = 0;
for (const { start, end, text } of pieces) {
  left += source.slice(done, start) + text();
  done = end;
}
left += source.slice(done);

// ---- what the wasm gives -----------------------------------------------------------------------------------------------------

const [before, wraps, after] = left.split(/(?=function applySignatureConversions\(|(?<=return wasmExports\})(?=function callMain\())/);
const used = [...`${before}${after}`.matchAll(/\bwasmExports(?:\["([^"]+)"\]|\.([\w$]+))/g)].map(([, text, name]) => text ?? name);
const exported = new Set(WebAssembly.Module.exports(wasm).map(({ name }) => name));
const names = [...new Set(used)].filter((name) => exported.has(name));
source = wraps.replace(/wasmExports\["([^"]+)"\]=makeWrapper_\w+\(wasmExports\["\1"\]\);/g, (all, name) => (names.includes(name) ? all : ""));
replace("Object.assign({},wasmExports)", `Object.fromEntries(${JSON.stringify(names)}.map(name=>[name,wasmExports[name]]))`);
left = `${before}${source}${after}`;

// In brackets, so that a browser reads the whole function at once instead of looking it over first.
source = left;
replace(`async function ${whole.id.name}(`, `export default (async function ${whole.id.name}(`);
replace(`}export default ${whole.id.name};`, "});");
parse(source, { ecmaVersion: "latest", sourceType: "module" });
writeFileSync(out, source);
