// Solves one program with HiGHS built for WebAssembly (npm: highs). Arguments:
// the MPS file, the limit in seconds, the absolute gap, the file for the answer.
const fs = require("node:fs");
const load = require("highs");

async function main() {
  const [mps, limit, gap, answer] = process.argv.slice(2);
  const highs = await load();
  const model = highs.createModel({ format: "mps", data: fs.readFileSync(mps) });
  model.options.set({ output_flag: false, time_limit: Number(limit), mip_rel_gap: 0, mip_abs_gap: Number(gap) });
  const began = process.hrtime.bigint();
  model.run();
  const own = Number(process.hrtime.bigint() - began) / 1e9;
  const status = model.getModelStatus();
  const known = highs.constants.modelStatus;
  const states = new Map([[known.optimal, "proven"], [known.timeLimit, "stopped"], [known.infeasible, "infeasible"]]);
  const has = model.info.get("primal_solution_status") === 2;
  fs.writeFileSync(answer, JSON.stringify({
    State: states.get(status) ?? "failed",
    Message: `model status ${status}`,
    Own: own,
    Total: has ? model.getObjectiveValue() : null,
    Nodes: Number(model.info.get("mip_node_count")),
    X: has ? Array.from(model.getSolution().colValue) : null,
  }));
}

main().catch((error) => {
  console.error(String(error));
  process.exit(1);
});
