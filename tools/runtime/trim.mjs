// Tree-shakes the runtime's own script down to what is reachable in a start from the snapshot. Runs in Node during the build.
//
//   node trim.mjs PYODIDE_FOLDER SCRIPT_OUT USER...
//
// Pyodide's script serves every library that may be loaded beside Python, with graphics, sound and sockets; for these, each of the wasm's several
// thousand functions gets two names and a table entry before Python starts. The pages load no such library. The roots are the statements with
// side effects, what the wasm imports, and whatever the USERs (the scripts that use the result) mention. Everything mentioned by something
// reachable is reachable too; any occurrence of a name counts as a mention. A plain start, the fallback, uses the whole script.

import { readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join, resolve } from "node:path";

const [folder, out, ...users] = process.argv.slice(2);
const { parse } = createRequire(resolve(folder, "package.json"))("acorn");
const wasm = new WebAssembly.Module(readFileSync(join(folder, "pyodide.asm.wasm")));
const imports = WebAssembly.Module.imports(wasm);
const imported = new Set(imports.filter(({ kind }) => kind === "function").map(({ name }) => name));
let source = readFileSync(join(folder, "pyodide.asm.mjs"), "utf8");

/** @param {string} from @param {string} to */
function replace(from, to) {
  const times = source.split(from).length - 1;
  if (times !== 1) throw new Error(`expected once in the runtime's script, found ${times} times: ${from}`);
  source = source.replace(from, () => to);
}

// Functions whose table index the wasm imports: those for WebGL get none, the few others theirs.
const placed = imports.filter(({ kind }) => kind !== "function");
if (placed.some(({ module }) => module !== "GOT.func")) throw new Error("the wasm imports more than functions and their table indices");
for (const { name } of placed) if (!name.startsWith("emscripten_gl")) imported.add(name);
replace('{value:"i32",mutable:true},-1)', '{value:"i32",mutable:true},symName.startsWith("emscripten_gl")?0:-1)');
// The wasm's exports are registered for libraries that are loaded later; only the entry point of Python is ever looked up.
replace('mergeLibSymbols(wasmExports,"main")', 'mergeLibSymbols({main:wasmExports["main"],__main_argc_argv:wasmExports["__main_argc_argv"]},"main")');
replace("updateGOT(origExports);", "");
replace("functionsInTableMap=new WeakMap;updateTableMap(0,wasmTable.length)", "functionsInTableMap=new WeakMap");
// Side effects at start, for graphics and sound.
replace("registerPostMainLoop(()=>SDL.audio?.queueNewAudioData?.());", "");
replace("for(let i=0;i<32;++i)tempFixedLengthArray.push(new Array(i));", "");
for (const kind of ["Float", "Int"]) {
  const buffers = `miniTempWebGL${kind}Buffers`;
  replace(`for(var i=0;i<=288;++i){${buffers}[i]=${buffers}Storage.subarray(0,i)}`, "");
}
// A canvas and file systems that are mentioned and never used.
const EMPTY = new Set(["Browser", "IDBFS", "WORKERFS", "PROXYFS"]);

// ---- the parts of the script ------------------------------------------------------------------------------------------------

/** @typedef {{ names: Set<string>, properties: Set<string> }} Mentions */

/** A node and all its descendants. */
function* descendants(node) {
  yield node;
  for (const value of Object.values(node)) {
    for (const each of Array.isArray(value) ? value : [value]) if (typeof each?.type === "string") yield* descendants(each);
  }
}

/** Every identifier and property name in a part of the script; a string literal may be a property name too. */
function mentions(piece) {
  const names = new Set();
  const properties = new Set();
  const isNoName = new Set();
  for (const node of descendants(piece)) {
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

const PURE_CONSTRUCTORS = new Set(["Map", "Set", "WeakMap", "WeakSet", "Array", "ArrayBuffer", "Uint8Array", "Int32Array", "Float32Array"]);

/** Whether evaluating an expression has no side effects. */
function isPure(node) {
  switch (node?.type) {
    case undefined:
    case "Literal":
    case "Identifier":
    case "FunctionExpression":
    case "ArrowFunctionExpression":
    case "ClassExpression":
      return true;
    case "ArrayExpression":
      return node.elements.every(isPure);
    case "ObjectExpression":
      return node.properties.every((each) => each.type === "Property" && !each.computed && isPure(each.value));
    case "TemplateLiteral":
      return node.expressions.every(isPure);
    case "UnaryExpression":
      return isPure(node.argument);
    case "MemberExpression":
      return isPure(node.object);
    case "NewExpression":
      return PURE_CONSTRUCTORS.has(node.callee.name) && node.arguments.every(isPure);
    case "BinaryExpression":
    case "LogicalExpression":
      return isPure(node.left) && isPure(node.right);
    default:
      return false;
  }
}

const program = parse(source, { ecmaVersion: "latest", sourceType: "module" });
const whole = program.body.find(({ type }) => type === "FunctionDeclaration");

/** @type {Map<string, Mentions[]>} The mentions in each named part; a property of the module has a dot before its name. */
const mentionedBy = new Map();
/** @type {Mentions[]} What is reachable in any case. */
const roots = users.map((file) => ({ names: new Set(), properties: new Set(readFileSync(file, "utf8").match(/[\w$]+/g)) }));
/** @type {{ start: number, end: number, text: () => string }[]} The parts that may be left out. */
const pieces = [];
const reached = new Set();

const note = (name, node) => mentionedBy.set(name, [...(mentionedBy.get(name) ?? []), mentions(node)]);
const piece = ({ start, end }, text) => pieces.push({ start, end, text });
const textOf = ({ start, end }) => source.slice(start, end);
const keyOf = ({ key }) => key.name ?? key.value;

/** A function with only some of its statements. */
function withStatements(node, isWanted) {
  return `function ${node.id.name}(wasmExports){${node.body.body.filter(isWanted).map(textOf).join("")}}`;
}

for (const statement of whole.body.body) {
  const assigned = statement.expression;
  if (statement.id?.name === "assignWasmExports") {
    const target = (each) => each.expression.left.name;
    for (const each of statement.body.body) mentionedBy.set(`.${target(each)}`, [{ names: new Set([target(each)]), properties: new Set() }]);
    piece(statement, () => withStatements(statement, (each) => reached.has(target(each)) || reached.has(`.${target(each)}`)));
  } else if (statement.type === "FunctionDeclaration") {
    note(statement.id.name, statement);
    piece(statement, () => (reached.has(statement.id.name) ? textOf(statement) : ""));
  } else if (statement.type === "VariableDeclaration") {
    const parts = statement.declarations.map((each) => {
      const { name } = each.id;
      if (name === "wasmImports") {
        const given = each.init.properties.filter((property) => imported.has(keyOf(property)));
        if (given.length !== imported.size) throw new Error("the script does not provide everything that the wasm imports");
        roots.push(...given.map((property) => mentions(property.value)));
        return () => `${name}={${given.map(textOf).join(",")}}`;
      }
      if (EMPTY.has(name)) return () => (reached.has(name) ? `${name}={}` : "");
      if (name && isPure(each.init)) {
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
  } else if (assigned?.type === "AssignmentExpression" && assigned.left.object?.type === "Identifier" && isPure(assigned.right)) {
    const { object, property } = assigned.left;
    const name = object.name === "Module" ? `.${property.name ?? property.value}` : object.name;
    note(name, assigned.right);
    piece(statement, () => (reached.has(name) ? textOf(statement) : ""));
  } else {
    roots.push(mentions(statement));
  }
}

// ---- what is reachable -------------------------------------------------------------------------------------------------------

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

// ---- the wasm's exports ------------------------------------------------------------------------------------------------------

const [before, wraps, after] = left.split(/(?=function applySignatureConversions\(|(?<=return wasmExports\})(?=function callMain\())/);
const used = [...`${before}${after}`.matchAll(/\bwasmExports(?:\["([^"]+)"\]|\.([\w$]+))/g)].map(([, text, name]) => text ?? name);
const exported = new Set(WebAssembly.Module.exports(wasm).map(({ name }) => name));
const names = [...new Set(used)].filter((name) => exported.has(name));
source = wraps.replace(/wasmExports\["([^"]+)"\]=makeWrapper_\w+\(wasmExports\["\1"\]\);/g, (all, name) => (names.includes(name) ? all : ""));
replace("Object.assign({},wasmExports)", `Object.fromEntries(${JSON.stringify(names)}.map(name=>[name,wasmExports[name]]))`);
left = `${before}${source}${after}`;

// In parentheses, so that a browser compiles the whole function eagerly instead of pre-parsing it first.
source = left;
replace(`async function ${whole.id.name}(`, `export default (async function ${whole.id.name}(`);
replace(`}export default ${whole.id.name};`, "});");
parse(source, { ecmaVersion: "latest", sourceType: "module" });
writeFileSync(out, source);
