// Makes tests/reference/canonical-json.jsonl and ecma-numbers.csv, judged by others' work: the npm package
// `canonicalize` (RFC 8785) and the JSON.stringify of node. Run once, offline tests read the files:
//   npm install canonicalize@4.0.0 && node make-canonical-cases.mjs tests/reference
import { readFileSync, writeFileSync } from "node:fs";
import { pathToFileURL } from "node:url";
import { join } from "node:path";

const home = join(process.cwd(), "node_modules/canonicalize");
const { version, main } = JSON.parse(readFileSync(join(home, "package.json")));
const { default: canonicalize } = await import(pathToFileURL(join(home, main)));
const into = process.argv[2];

// xorshift32, so that the same cases come out again.
let state = 20260301;
const next = () => {
  state ^= state << 13;
  state ^= state >>> 17;
  state ^= state << 5;
  return state >>> 0;
};
const below = (n) => next() % n;

const view = new DataView(new ArrayBuffer(8));
const fromBits = () => {
  view.setUint32(0, next());
  view.setUint32(4, next());
  return view.getFloat64(0);
};
const typed = () => Number((below(2_000_000) / 10 ** below(7)).toFixed(below(7)));
const number = () => {
  const value = [fromBits, typed, () => below(100) - 50, () => (next() - 2 ** 31) * 2 ** below(60)][below(4)]();
  return Number.isFinite(value) ? value : 0;
};

const hex = (value) => {
  view.setFloat64(0, value);
  return view.getBigUint64(0).toString(16).padStart(16, "0");
};
const rows = ["bits,text"];
while (rows.length <= 2000) {
  const value = rows.length % 2 ? fromBits() : number();
  if (Number.isFinite(value)) {
    rows.push(`${hex(value)},${JSON.stringify(value)}`);
  }
}
// Both sides of every power of ten, where the form changes.
for (let exponent = -324; exponent <= 308; exponent++) {
  const value = Number(`1e${exponent}`);
  view.setFloat64(0, value);
  const bits = view.getBigUint64(0);
  for (const near of [bits - 1n, bits, bits + 1n]) {
    view.setBigUint64(0, near < 0n ? 0n : near);
    const neighbour = view.getFloat64(0);
    rows.push(`${hex(neighbour)},${JSON.stringify(neighbour)}`);
  }
}
writeFileSync(join(into, "ecma-numbers.csv"), rows.join("\n") + "\n");

const letters = [
  "a", "B", "z", "0", " ", "\"", "\\", "/", "\b", "\f", "\n", "\r", "\t", "\u0000", "\u001f", "\u007f", "\u0080",
  "\u00e9", "e\u0301", "\u20ac", "\u2028", "\ufb33", "\uffff", "\ud83d\udc1f", "\u{10ffff}", "<", "&", "'", "+",
];
const text = () => Array.from({ length: below(8) }, () => letters[below(letters.length)]).join("");
const value = (depth) => {
  const kind = below(depth > 4 ? 5 : 8);
  switch (kind) {
    case 0: return null;
    case 1: return below(2) === 0;
    case 2: case 3: return number();
    case 4: return text();
    case 5: return Array.from({ length: below(5) }, () => value(depth + 1));
    default: return Object.fromEntries(Array.from({ length: below(7) }, () => [text(), value(depth + 1)]));
  }
};
// The same value in another dress: members in another order, spaces, escapes.
const dressed = (v) => {
  if (Array.isArray(v)) {
    return "[ " + v.map(dressed).join(" ,\n") + "\t]";
  }
  if (v !== null && typeof v === "object") {
    const members = Object.entries(v).map(([name, member]) => [next(), `${escaped(name)} : ${dressed(member)}`]);
    return "{" + members.sort((a, b) => a[0] - b[0]).map((m) => m[1]).join(" , ") + " }";
  }
  return typeof v === "string" ? escaped(v) : typeof v === "number" ? spelled(v) : JSON.stringify(v);
};
const escaped = (s) =>
  "\"" + Array.from({ length: s.length }, (_, i) =>
    below(3) === 0 || s.charCodeAt(i) < 32 || s[i] === "\"" || s[i] === "\\" || (s.charCodeAt(i) & 0xf800) === 0xd800
      ? "\\u" + s.charCodeAt(i).toString(16).padStart(4, "0")
      : s[i]).join("") + "\"";
const spelled = (n) => (below(2) === 0 ? n.toExponential(20).replace("e+", "E") : String(n));

const lines = [JSON.stringify({ made: `canonicalize ${version}`, node: process.version })];
for (let i = 0; i < 400; i++) {
  const whole = value(0);
  lines.push(JSON.stringify({ input: dressed(whole), output: canonicalize(whole) }));
}
writeFileSync(join(into, "canonical-json.jsonl"), lines.join("\n") + "\n");
