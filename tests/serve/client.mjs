// `flinch serve` under a client that others wrote: vscode-languageserver-protocol over vscode-jsonrpc.
// Usage: node client.mjs NODE_MODULES PROGRAM PACK-FOLDER
import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { once } from "node:events";
import fs from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { pathToFileURL } from "node:url";

const [modules, program, pack] = process.argv.slice(2).map((one) => path.resolve(one));
const require = createRequire(path.join(modules, "here.js"));
const protocol = require("vscode-languageserver-protocol/node");

function start() {
  const child = spawn(program, ["serve"], { stdio: ["pipe", "pipe", "inherit"] });
  const ended = once(child, "exit");
  const connection = protocol.createProtocolConnection(
    new protocol.StreamMessageReader(child.stdout), new protocol.StreamMessageWriter(child.stdin));
  connection.listen();
  return { child, connection, ended };
}

const { connection, ended } = start();
const shown = new Map();
const waiting = new Map();
connection.onNotification(protocol.PublishDiagnosticsNotification.type, (params) => {
  shown.set(params.uri, params);
  waiting.get(params.uri)?.(params);
});
const nextFor = (uri) => new Promise((resolve) => waiting.set(uri, resolve));
// A check of an earlier text may still be shown before the edit arrives.
const nextOf = (uri, version) => new Promise((resolve) =>
  waiting.set(uri, (params) => { if (params.version === version) resolve(params); }));

const begun = await connection.sendRequest(protocol.InitializeRequest.type, {
  processId: process.pid, rootUri: null,
  capabilities: { textDocument: { hover: { contentFormat: ["markdown", "plaintext"] } } },
});
assert.equal(begun.capabilities.positionEncoding, "utf-16");
assert.equal(begun.capabilities.textDocumentSync.change, protocol.TextDocumentSyncKind.Incremental);
await connection.sendNotification(protocol.InitializedNotification.type, {});

// A shipped file: no mistakes, and a rule's cause explained and found.
const file = path.join(pack, "legs_told.flinch");
const uri = pathToFileURL(file).href;
const text = fs.readFileSync(file, "utf8");
const lines = text.split("\n");
const textDocument = { uri };
let published = nextFor(uri);
await connection.sendNotification(protocol.DidOpenTextDocumentNotification.type,
  { textDocument: { uri, languageId: "flinch", version: 1, text } });
assert.deepEqual((await published).diagnostics, []);

const line = lines.findIndex((one) => one.startsWith("  in "));
const position = { line, character: 6 };
const cause = lines[line].match(/^ {2}in (\w+)/)[1];
const hover = await connection.sendRequest(protocol.HoverRequest.type, { textDocument, position });
assert.equal(hover.contents.kind, "markdown");
assert.ok(hover.contents.value.includes(`\`${cause}\``) && /decibans, .*(for|against)/.test(hover.contents.value));
const definition = await connection.sendRequest(protocol.DefinitionRequest.type, { textDocument, position });
const defining = fs.readFileSync(new URL(definition.uri), "utf8").split("\n")[definition.range.start.line];
assert.ok(defining.startsWith(`cause ${cause} `), defining);
const offered = await connection.sendRequest(protocol.CompletionRequest.type, { textDocument, position });
assert.ok(offered.items.some((one) => one.label === cause) && offered.items.every((one) => one.label !== "because"));
assert.deepEqual(await connection.sendRequest(protocol.DocumentFormattingRequest.type,
  { textDocument, options: { tabSize: 2, insertSpaces: true } }), []);

// Typed into it: positions count UTF-16 units, so a dog is two and a combining accent one.
published = nextFor(uri);
await connection.sendNotification(protocol.DidChangeTextDocumentNotification.type, {
  textDocument: { uri, version: 2 },
  contentChanges: [{ range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
    text: "cause odd \"\u{1F436}e\u0301\" oops\n" }],
});
const broken = (await published);
assert.equal(broken.version, 2);
const oops = broken.diagnostics.find((one) => one.code === "expected");
assert.deepEqual(oops.range, { start: { line: 0, character: 17 }, end: { line: 0, character: 21 } });
published = nextFor(uri);
await connection.sendNotification(protocol.DidChangeTextDocumentNotification.type, {
  textDocument: { uri, version: 3 },
  contentChanges: [{ range: { start: { line: 0, character: 0 }, end: { line: 1, character: 0 } }, text: "site   extra\n" }],
});
await published;
const [edit] = await connection.sendRequest(protocol.DocumentFormattingRequest.type,
  { textDocument, options: { tabSize: 2, insertSpaces: true } });
assert.equal(edit.newText, "site extra\n" + text);

// The name that was meant, written by a quick fix; then, with typing at rest, what `check` warns of.
published = nextOf(uri, 4);
await connection.sendNotification(protocol.DidChangeTextDocumentNotification.type, {
  textDocument: { uri, version: 4 }, contentChanges: [{ text: text.replace(`  in ${cause} `, `  in ${cause}x `) }],
});
const unknown = (await published).diagnostics.find((one) => one.code === "unknown-name");
const actions = await connection.sendRequest(protocol.CodeActionRequest.type,
  { textDocument, range: unknown.range, context: { diagnostics: [unknown] } });
assert.equal(actions[0].kind, protocol.CodeActionKind.QuickFix);
assert.deepEqual(actions[0].edit.changes[uri], [{ range: unknown.range, newText: cause }]);
published = nextOf(uri, 5);
await connection.sendNotification(protocol.DidChangeTextDocumentNotification.type, {
  textDocument: { uri, version: 5 }, contentChanges: [{ text: text + "\nmeans extra: age >= 3 years\n" }],
});
assert.deepEqual((await published).diagnostics, []);
published = nextOf(uri, 5);
const rested = performance.now();
// Nothing waits for the check: what is asked meanwhile is answered.
await connection.sendRequest(protocol.HoverRequest.type, { textDocument, position });
const hovered = performance.now() - rested;
const warned = await published;
assert.deepEqual(warned.diagnostics.map((one) => [one.code, one.severity]), [["unused-meaning", 2]]);
assert.equal(warned.version, 5);
console.log(`a warning ${Math.round(performance.now() - rested)} ms after the edit, a hover in ${Math.round(hovered)} ms`);

await assert.rejects(connection.sendRequest("flinch/none", {}), (error) => error.code === -32601);
await connection.sendRequest(protocol.ShutdownRequest.type);
await assert.rejects(connection.sendRequest(protocol.HoverRequest.type, { textDocument, position }),
  (error) => error.code === -32600);
await connection.sendNotification(protocol.ExitNotification.type);
assert.deepEqual(await ended, [0, null]);
connection.dispose();

// Ended without shutdown, and left without a word.
for (const leave of [
  ({ connection }) => connection.sendNotification(protocol.ExitNotification.type),
  ({ child }) => child.stdin.end(),
]) {
  const other = start();
  await other.connection.sendRequest(protocol.InitializeRequest.type, { processId: null, rootUri: null, capabilities: {} });
  await leave(other);
  assert.deepEqual(await other.ended, [1, null]);
  other.connection.dispose();
}
console.log("a client of the protocol is served");
