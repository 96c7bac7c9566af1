// The peer that an archive is read beside: DuckDB reads the same marks from csv, a
// row a figure, marks as text, casts them and sums each flight up.
//
//   npm install --prefix MODULES @duckdb/node-api
//   yes | head -7 | node peer.mjs MODULES TABLE.csv THREADS
import { createRequire } from "node:module";
import { readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { createInterface } from "node:readline";

const [modules, table, threads] = process.argv.slice(2);
const { DuckDBInstance } = createRequire(join(resolve(modules), "x.js"))("@duckdb/node-api");
const instance = await DuckDBInstance.create(":memory:", { threads });
const connection = await instance.connect();

// What is no grade counts as the mean of the others, as a hard zero of a minority does.
const marks = [1, 2, 3, 4, 5].map((j) => `try_cast(m${j} as float)`);
const query = `select count(*), sum(figures), sum(points) from (
  select flight, count(*) as figures, sum(k * (${marks.map((m) => `coalesce(${m}, 0)`).join(" + ")}) /
    (${marks.map((m) => `(${m} is not null)::tinyint`).join(" + ")})::double) as points
  from read_csv('${table}', header = true, columns = {flight: 'integer', figure: 'integer', k: 'integer',
    m1: 'varchar', m2: 'varchar', m3: 'varchar', m4: 'varchar', m5: 'varchar'})
  group by flight)`;

// A round for each line of input: seconds, those of the processor, the peak of memory.
for await (const _ of createInterface({ input: process.stdin })) {
  const cpu = process.cpuUsage();
  const begin = process.hrtime.bigint();
  const rows = (await connection.runAndReadAll(query)).getRows();
  const seconds = Number(process.hrtime.bigint() - begin) / 1e9;
  const used = process.cpuUsage(cpu);
  const [flights, figures, points] = rows[0].map(Number);
  const peak = Number(/VmHWM:\s+(\d+)/.exec(readFileSync("/proc/self/status", "utf8"))[1]) * 1024;
  console.log(JSON.stringify({ flights, figures, points, seconds, cpu: (used.user + used.system) / 1e6, peak }));
}
