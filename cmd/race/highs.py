# Solves one program with the HiGHS inside scipy. Arguments: the matrix file, the
# limit in seconds, the file for the answer.
import json
import sys
import time

import numpy
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csc_matrix

data = open(sys.argv[1], "rb").read()
offset = 0


def take(kind, count):
    global offset
    part = numpy.frombuffer(data, kind, count, offset)
    offset += part.nbytes
    return part


rows, columns, entries = (int(n) for n in take("<i8", 3))
cost, upper = take("<f8", columns), take("<f8", columns)
integer = take("<i8", columns)
low, high = take("<f8", rows), take("<f8", rows)
start, index = take("<i8", columns + 1), take("<i8", entries)
matrix = csc_matrix((take("<f8", entries), index, start), shape=(rows, columns))

began = time.perf_counter()
result = milp(
    cost,
    integrality=integer,
    bounds=Bounds(numpy.zeros(columns), upper),
    constraints=LinearConstraint(matrix, low, high),
    options={"mip_rel_gap": 0, "time_limit": float(sys.argv[2])},
)
own = time.perf_counter() - began

answer = {
    "State": {0: "proven", 1: "stopped", 2: "infeasible"}.get(result.status, "failed"),
    "Message": result.message,
    "Own": own,
    "Total": None if result.fun is None else float(result.fun),
    "Nodes": int(getattr(result, "mip_node_count", 0) or 0),
    "X": None if result.x is None else [float(v) for v in result.x],
}
json.dump(answer, open(sys.argv[3], "w"))
