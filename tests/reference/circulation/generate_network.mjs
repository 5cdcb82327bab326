// Makes network.csv: 24 made-up house networks solved by EPANET through the npm package epanet-js.
//
//     mkdir EMPTY_FOLDER; cp generate_network.mjs loop.csv EMPTY_FOLDER; cd EMPTY_FOLDER
//     npm install epanet-js@0.9.0
//     node generate_network.mjs > network.csv
//
// loop.csv lends its pairs of water temperature and viscosity. Nothing else is read.
import fs from "fs";
import { Project, Workspace, LinkProperty } from "epanet-js";

const dotted = (v) => [Math.floor(v / 10000), Math.floor(v / 100) % 100, v % 100].join(".");
const epanetJs = JSON.parse(fs.readFileSync("node_modules/epanet-js/package.json", "utf8")).version;

// mulberry32: small, seeded, the same everywhere
let seed = 20261125;
function random() {
  seed = (seed + 0x6d2b79f5) | 0;
  let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
}
const between = (low, high, digits) => Number((low + (high - low) * random()).toFixed(digits));
const among = (list) => list[Math.floor(random() * list.length)];

function waters() {
  const lines = fs.readFileSync("loop.csv", "utf8").split("\n").filter((l) => l && !l.startsWith("#"));
  const names = lines[0].split(",");
  const [t, nu] = [names.indexOf("temp_C"), names.indexOf("nu_m2s")];
  // the columns looked for stand behind a quoted one only in rows without commas in it
  return lines.slice(1).map((l) => l.match(/("([^"]|"")*"|[^,]*)(,|$)/g).map((f) => f.replace(/,$/, "")))
    .map((f) => ({ temp: f[t], nu: f[nu] }));
}

const bores = [0.040894, 0.0525018, 0.0627126];
const level = {};

function house(i, water) {
  const links = [];
  const pipe = (name, from, to, d, low, high) =>
    links.push({ name, kind: "pipe", from, to, d, L: between(low, high, 2), eps: 1.5e-6, K: between(1.5, 12, 3) });
  const loss = (name, from, to, d, K) => links.push({ name, kind: "loss", from, to, d, K });
  const suction = among(bores), discharge = among(bores);
  for (const name of ["drain_1", "drain_2", "skimmer"])
    pipe(name, "pool", "suction_header", among(bores.slice(0, 2)), 6, 25);
  loss("strainer", "suction_header", "pump_in", suction, between(0.5, 6, 3));
  const pumps = i % 3 === 1 ? 2 : 1;
  for (let p = 1; p <= pumps; ++p) {
    const h0 = between(14, 24, 3), q1 = between(0.002, 0.0035, 6), q2 = Number((q1 * between(1.5, 2.1, 3)).toFixed(6));
    const h1 = Number((h0 * between(0.72, 0.9, 3)).toFixed(4)), h2 = Number((h0 * between(0.2, 0.4, 3)).toFixed(4));
    const out = `pump_${p}_out`;
    links.push({ name: `pump_${p}`, kind: "pump", from: "pump_in", to: out, h0, q1, h1, q2, h2, speed: between(0.6, 1, 3) });
    links.push({ name: `check_${p}`, kind: "check", from: out, to: "filter_in", d: discharge, L: 0.5, eps: 1.5e-6, K: between(1.5, 3, 3) });
  }
  loss("filter", "filter_in", "filter_out", discharge, between(15, 90, 3));
  if (i % 4 === 2) {
    loss("straight_valve", "filter_out", "heater_in", discharge, between(20, 400, 3));
    pipe("solar_up", "filter_out", "roof", discharge, 8, 20);
    loss("panels", "roof", "roof_end", discharge, between(5, 40, 3));
    pipe("solar_down", "roof_end", "heater_in", discharge, 8, 20);
  } else pipe("to_heater", "filter_out", "heater_in", discharge, 0.5, 2);
  loss("heater", "heater_in", "heater_out", discharge, between(10, 60, 3));
  loss("bypass", "heater_in", "heater_out", discharge, between(20, 500, 3));
  const second = i % 5 === 3 ? "spa" : "pool";
  pipe("return_1", "heater_out", "pool", among(bores.slice(0, 2)), 8, 30);
  pipe("return_2", "heater_out", second, among(bores.slice(0, 2)), 8, 30);
  level[i] = second === "spa" ? between(0.2, 0.6, 2) : 0;
  return { id: `N${String(i + 1).padStart(2, "0")}`, water, links, spa: level[i] };
}

const mm = (m) => (m * 1000).toFixed(7);
const cmh = (m3s) => (m3s * 3600).toFixed(9);

function input(h) {
  const nodes = [...new Set(h.links.flatMap((l) => [l.from, l.to]))];
  const surfaces = nodes.filter((n) => n === "pool" || n === "spa");
  const lines = ["[TITLE]", h.id, "[JUNCTIONS]"];
  for (const n of nodes) if (!surfaces.includes(n)) lines.push(`${n} 0 0`);
  lines.push("[RESERVOIRS]");
  for (const n of surfaces) lines.push(`${n} ${n === "spa" ? h.spa : 0}`);
  lines.push("[PIPES]");
  for (const l of h.links)
    if (l.kind === "pipe" || l.kind === "check")
      lines.push(`${l.name} ${l.from} ${l.to} ${l.L} ${mm(l.d)} ${mm(l.eps)} ${l.K} ${l.kind === "check" ? "CV" : "Open"}`);
  lines.push("[VALVES]");
  for (const l of h.links) if (l.kind === "loss") lines.push(`${l.name} ${l.from} ${l.to} ${mm(l.d)} TCV ${l.K} 0`);
  lines.push("[PUMPS]");
  for (const l of h.links)
    if (l.kind === "pump") lines.push(`${l.name} ${l.from} ${l.to} HEAD c_${l.name} SPEED ${l.speed}`);
  lines.push("[CURVES]");
  for (const l of h.links)
    if (l.kind === "pump")
      for (const [q, y] of [[0, l.h0], [l.q1, l.h1], [l.q2, l.h2]]) lines.push(`c_${l.name} ${cmh(q)} ${y}`);
  lines.push("[OPTIONS]", "UNITS CMH", "HEADLOSS D-W", `VISCOSITY ${h.water.nu}`, "ACCURACY 1e-8", "HEADERROR 1e-6", "FLOWCHANGE 1e-6",
    "TRIALS 500", "[TIMES]", "DURATION 0", "[END]");
  return lines.join("\n") + "\n";
}

const workspace = new Workspace();
await workspace.loadModule();
const allWaters = waters();
const rows = [];
let worst = 0;
for (let i = 0; i < 24; ++i) {
  const h = house(i, among(allWaters));
  workspace.writeFile("net.inp", input(h));
  const project = new Project(workspace);
  project.open("net.inp", "report.rpt", "out.bin");
  project.openH();
  project.initH(11);
  project.runH();
  worst = Math.max(worst, project.getStatistic(1));
  for (const l of h.links) {
    const index = project.getLinkIndex(l.name);
    const flow = project.getLinkValue(index, LinkProperty.Flow) / 3600;
    const drop = project.getLinkValue(index, LinkProperty.Headloss);
    const at = (n) => (n === "pool" ? "0" : n === "spa" ? String(h.spa) : "");
    rows.push([h.id, h.water.temp, h.water.nu, l.name, l.kind, l.from, l.to, at(l.from), at(l.to), l.d ?? "", l.L ?? "",
      l.eps ?? "", l.K ?? "", l.h0 ?? "", l.q1 ?? "", l.h1 ?? "", l.q2 ?? "", l.h2 ?? "", l.speed ?? "",
      flow.toPrecision(10), drop.toPrecision(9)].join(","));
  }
  project.closeH();
  project.close();
}

console.log(`# Reference flows in 24 made-up house networks: two main drains and a skimmer in parallel, one pump or two, filter, heater beside its bypass, two returns; every fourth with a branch over a roof beside a valve part shut, some with the second return into a raised spa.
# Program: EPANET ${dotted(workspace.version)} by the npm package epanet-js ${epanetJs}, made by generate_network.mjs on ${new Date().toISOString().slice(0, 10)}; its worst relative change of flow in the last step was ${worst.toExponential(1)}.
# OPTIONS: UNITS CMH (turned into SI here), HEADLOSS D-W, VISCOSITY as nu_m2s, ACCURACY 1e-8, HEADERROR 1e-6 m, FLOWCHANGE 1e-6 m3/h, TRIALS 500, demands none, one steady state.
# Inputs come from a seeded generator; pump curves are invented and belong to no product. Temperatures and viscosities are pairs of loop.csv (IAPWS-IF97 and IAPWS 2008).
# UNITS: SI (m, m3/s, m2/s, degC); K dimensionless; speed a share. One row for each link, flow from 'from' to 'to' positive; from_level_m, to_level_m: a free water surface at that head, empty for a junction.
# KINDS: pipe and check (a pipe with a check valve): length L_m, bore d_m, roughness_m, minor loss K on its bore. loss: throttle control valve K on d_m. pump: the power curve through (0, h0_m), (q1_m3s, h1_m), (q2_m3s, h2_m) at speed 1, affinity laws for its speed.
# FRICTION there: 64/Re to Re 2000, a cubic of Dunlop from 2000 to 4000, the explicit factor of Swamee and Jain above (0.3 to 1.6 % from Colebrook's root); g 32.2 ft/s2, minor loss 0.02517 K Q2/d4 in feet.
network,temp_C,nu_m2s,link,kind,from,to,from_level_m,to_level_m,d_m,L_m,roughness_m,K,h0_m,q1_m3s,h1_m,q2_m3s,h2_m,speed,flow_m3s,drop_m`);
console.log(rows.join("\n"));
