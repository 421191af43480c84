// Makes tests/reference/ucum-codes.csv: for each unit code of the journal, whether it is UCUM in the judgement of the
// npm package `@lhncbc/ucum-lhc`. Run once, offline tests read the file:
//   npm install @lhncbc/ucum-lhc@7.1.10 && node make-ucum-codes.mjs src/Broodtide.Domain/Journal/UnitCode.cs tests/reference
import { createRequire } from "node:module";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const require = createRequire(join(process.cwd(), "package.json"));
const { UcumLhcUtils } = require("@lhncbc/ucum-lhc");
const version = JSON.parse(readFileSync(join(process.cwd(), "node_modules/@lhncbc/ucum-lhc/package.json"))).version;
const utils = UcumLhcUtils.getInstance();

const source = readFileSync(process.argv[2], "utf8");
const codes = [...source.matchAll(/new\("([^"]+)", Dimension/g)].map((match) => match[1]);
const rows = [`# judged by @lhncbc/ucum-lhc ${version}`, "code,status"];
for (const code of codes) {
  const { status, ucumCode } = utils.validateUnitString(code);
  rows.push(`${code},${status === "valid" && ucumCode === code ? "valid" : "invalid"}`);
}
writeFileSync(join(process.argv[3], "ucum-codes.csv"), rows.join("\n") + "\n");
