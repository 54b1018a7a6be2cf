"""Every measurement again, by NumPy and SciPy, from the words of the definitions.

Truth: NumPy's linear algebra and SciPy's least_squares; uncertainties by central differences of
these formulas here (JCGM 100:2008, 5.1.2), so neither formulas nor derivatives are the program's.

usage: test_reference.py MEASURE_DUMP
"""

import json
import subprocess
import sys

import numpy as np
from scipy.optimize import least_squares

SEED = 1234
FEET = 60
LARGEST_DIFFERENCE = 1e-6  # both sides solve to about 1e-10; least_squares stops at 1e-12 of cost
LARGEST_SHARE = 1e-3       # of an uncertainty: central differences of a fit
GROUND = {"lateromedial": ("ground-heel", "ground-toe"),
          "dorsopalmar": ("ground-medial", "ground-lateral")}


# ---- plane geometry ----

def bearing(v):
    """Angle of a vector, degrees, from +x turning towards +y."""
    return np.degrees(np.angle(v[0] + 1j * v[1]))


def wrapped(degrees):
    return -((-degrees + 180) % 360 - 180)


def frame(p, pair):
    """Rotation that makes the line through the pair level."""
    v = p[pair[1]] - p[pair[0]]
    c, s = v / np.linalg.norm(v)
    return np.array([[c, s], [-s, c]])


def slope_from_heel(v):
    """Acute angle at the palmar side of a line that runs up and back."""
    return bearing(np.array([-v[0], v[1]]))


def off_line(q, a, b):
    """Distance of q from the line a-b through the orthogonal complement, + on the side of n."""
    normal = np.linalg.svd((b - a)[None, :])[2][1]
    if normal[1] < 0:
        normal = -normal
    return normal @ (q - a)


def meeting(p, direction, a, b):
    """Where p + t direction meets the line a-b: t."""
    return np.linalg.solve(np.column_stack([direction, a - b]), a - p)[0]


def circle(points):
    q = np.array(points)
    start = np.append(q.mean(axis=0) + [0, 5], 15)
    found = least_squares(lambda c: np.hypot(*(q - c[:2]).T) - c[2], start,
                          xtol=1e-15, ftol=1e-15, gtol=1e-15, method="lm")
    return found.x


def condyle(p, bone):
    ids = [f"{bone}-distal-condyle-{i}" for i in range(1, 6)]
    return circle([p[i] for i in ids if i in p])[:2]


# ---- the definitions ----

def lateromedial(p, shod):
    turn = frame(p, GROUND["lateromedial"])
    g = {k: turn @ (v - p["ground-heel"]) for k, v in p.items()}  # x along, y over the ground
    dip, pip = condyle(g, "p2"), condyle(g, "p1")
    rise = lambda distal, proximal: slope_from_heel(g[proximal] - g[distal])
    m = {}
    m["palmar-angle"] = slope_from_heel(g["p3-palmar-process"] - g["p3-tip"])
    plane = ("foot-plane-heel", "foot-plane-toe") if shod else GROUND["lateromedial"]
    own = frame(p, plane)
    m["palmar-angle-foot"] = slope_from_heel(own @ (p["p3-palmar-process"] - p["p3-tip"]))
    m["sole-depth-tip"] = off_line(g["p3-tip"], g["sole-b"], g["sole-a"])
    m["sole-depth-palmar"] = (g["p3-palmar-process"] - g["sole-under-palmar"])[1]
    m["tip-ground-height"] = g["p3-tip"][1]
    m["p3-dorsal-angle"] = rise("p3-dorsal-distal", "p3-dorsal-proximal")
    m["p3-bone-angle"] = m["p3-dorsal-angle"] - m["palmar-angle"]
    m["hoof-angle"] = rise("wall-dorsal-distal", "wall-dorsal-proximal")
    m["capsular-rotation"] = m["p3-dorsal-angle"] - m["hoof-angle"]
    parietal = g["p3-dorsal-proximal"] - g["p3-dorsal-distal"]
    dorsal = np.array([parietal[1], -parietal[0]]) / np.linalg.norm(parietal)
    for name, share in (("proximal", 1.0), ("mid", 0.5), ("distal", 0.0)):
        m["wall-thickness-" + name] = meeting(g["p3-dorsal-distal"] + share * parietal, dorsal,
                                              g["wall-dorsal-distal"], g["wall-dorsal-proximal"])
    m["coronary-extensor-distance"] = g["coronary-band"][1] - g["extensor-process"][1]
    m["toe-length"] = np.linalg.norm(g["coronary-band"] - g["wall-toe-ground"])
    m["heel-angle"] = rise("heel-wall-distal", "heel-wall-proximal")
    m["p1-angle"] = rise("p1-axis-distal", "p1-axis-proximal")
    m["p2-angle"] = slope_from_heel(pip - dip)
    m["hpa-deviation"] = wrapped(m["p3-dorsal-angle"] - m["p1-angle"])
    m["pip-deviation"] = wrapped(m["p2-angle"] - m["p1-angle"])
    m["dip-deviation"] = wrapped(m["p3-dorsal-angle"] - m["p2-angle"])
    heel = g["shoe-heel-end"] if shod else g["heel-ground"]
    m["dip-height"] = dip[1]
    m["breakover-distance"] = g["breakover"][0] - g["p3-tip"][0]
    m["cor-toe"] = g["breakover"][0] - dip[0]
    m["cor-heel"] = dip[0] - heel[0]
    m["support-length"] = g["breakover"][0] - heel[0]
    m["base-proportion"] = m["cor-toe"] / m["support-length"]
    return m


def dorsopalmar(p, _shod):
    turn = frame(p, GROUND["dorsopalmar"])
    g = {k: turn @ (v - p["ground-medial"]) for k, v in p.items()}
    tilt = lambda stem: bearing(g[stem + "-lateral"] - g[stem + "-medial"])
    m = {}
    for side in ("medial", "lateral"):
        m["dip-space-" + side] = off_line(g["dip-p2-" + side], g["dip-p3-medial"],
                                          g["dip-p3-lateral"])
        m["wall-length-" + side] = np.linalg.norm(g["coronet-" + side] - g["wall-ground-" + side])
        wall = g["wall-proximal-" + side] - g["wall-ground-" + side]
        inwards = np.array([1.0 if side == "medial" else -1.0, 0.0])
        m["wall-angle-" + side] = np.degrees(np.arccos(inwards @ wall / np.linalg.norm(wall)))
    m["dip-space-ratio"] = m["dip-space-lateral"] / m["dip-space-medial"]
    mean = (m["dip-space-lateral"] + m["dip-space-medial"]) / 2
    m["dip-symmetry-index"] = 100 * (m["dip-space-lateral"] - m["dip-space-medial"]) / mean
    middle = {s: (g["dip-p2-" + s] + g["dip-p3-" + s]) / 2 for s in ("medial", "lateral")}
    m["dip-line-angle"] = bearing(middle["lateral"] - middle["medial"])
    m["p3-ml-tilt"] = tilt("p3-distal-border")
    m["p3-ml-tilt-articular"] = tilt("p3-articular")
    axis = g["p2-axis-proximal"] - g["p2-axis-distal"]
    m["p2-axis-ml-angle"] = 90 - bearing(axis)
    m["dip-ml-deviation"] = -(m["p2-axis-ml-angle"] + m["p3-ml-tilt-articular"])
    m["coronet-ml-tilt"] = tilt("coronet")
    m["wall-length-difference"] = m["wall-length-lateral"] - m["wall-length-medial"]
    foot = g["p2-axis-distal"][0] - axis[0] / axis[1] * g["p2-axis-distal"][1]
    m["axis-to-wall-medial"] = foot - g["wall-ground-medial"][0]
    m["axis-to-wall-lateral"] = g["wall-ground-lateral"][0] - foot
    centre = (g["wall-ground-medial"][0] + g["wall-ground-lateral"][0]) / 2
    m["foot-axis-offset"] = foot - centre
    m["foot-centre-offset"] = g["p2-condyle-mid"][0] - centre
    return m


FORMULAS = {"lateromedial": lateromedial, "dorsopalmar": dorsopalmar}


# ---- feet ----

def arc(random, centre, radius, axis_deg, half_deg, count):
    angles = np.linspace(-half_deg, half_deg, count) + random.uniform(-5, 5, count)
    a = np.radians(axis_deg + angles)
    return np.column_stack([centre[0] + radius * np.cos(a), centre[1] - radius * np.sin(a)])


def up(p, slope_deg, mm):
    a = np.radians(slope_deg)
    return p + mm * np.array([-np.cos(a), np.sin(a)])


def side_foot(random, shod):
    u = random.uniform
    palmar, bone, rotation, p1 = u(-3, 10), u(46, 50), u(-2, 8), u(46, 60)
    dorsal, p2 = palmar + bone, p1 + u(-7, 7)
    lift = 12 if shod else 0
    p = {"p3-tip": np.array([u(-10, 10), lift + u(11, 25)])}
    tip = p["p3-tip"]
    p["p3-palmar-process"] = up(tip, palmar, u(60, 74))
    p["p3-dorsal-distal"] = up(tip, dorsal, u(8, 12))
    p["p3-dorsal-proximal"] = up(tip, dorsal + u(-1, 1), u(40, 48))
    p["extensor-process"] = up(tip, dorsal + 3, u(52, 60))
    wall = p["p3-dorsal-proximal"] + u(14, 18) * np.array([0.77, 0.64])
    p["wall-dorsal-proximal"] = wall
    p["wall-dorsal-distal"] = up(wall, dorsal - rotation, -u(38, 46))
    p["wall-toe-ground"] = up(wall, dorsal - rotation, -u(55, 62))
    p["coronary-band"] = up(wall, dorsal - rotation, u(9, 13))
    p["sole-a"] = tip + [5, -u(9, 12)]
    p["sole-b"] = tip + [-u(10, 15), -u(9, 12)]
    p["sole-under-palmar"] = p["p3-palmar-process"] + [u(-2, 2), -u(9, 14)]
    dip = tip + [-u(34, 42), u(38, 46)]
    pip = up(dip, p2, u(38, 45))
    for bone_name, centre, radius, axis in (("p2", dip, u(15, 18), p2), ("p1", pip, u(13, 16), p1)):
        for i, q in enumerate(arc(random, centre, radius, axis, 65, random.integers(3, 6)), 1):
            p[f"{bone_name}-distal-condyle-{i}"] = q + random.normal(0, 0.15, 2)
    p["p1-axis-distal"], p["p1-axis-proximal"] = up(pip, p1, 15), up(pip, p1, u(52, 62))
    p["breakover"] = np.array([tip[0] + u(3, 30), 0.5])
    p["heel-ground"] = np.array([dip[0] - u(40, 60), lift])
    p["heel-wall-distal"] = p["heel-ground"] + [-3, 6]
    p["heel-wall-proximal"] = up(p["heel-ground"], dorsal - u(2, 15), 30)
    p["ground-heel"], p["ground-toe"] = np.array([-140.0, u(-2, 2)]), np.array([70.0, u(-2, 2)])
    if shod:
        p["shoe-heel-end"] = np.array([p["heel-ground"][0] - u(0, 8), 0.0])
        p["foot-plane-heel"] = np.array([-95.0, lift + u(-1, 4)])
        p["foot-plane-toe"] = np.array([10.0, lift])
    return p


def front_foot(random, _shod):
    u = random.uniform
    p = {"ground-medial": np.array([-u(75, 90), u(-2, 2)]),
         "ground-lateral": np.array([u(75, 90), u(-2, 2)]),
         "p2-axis-distal": np.array([u(-3, 3), u(55, 62)]),
         "p2-condyle-mid": np.array([u(-3, 3), u(55, 65)])}
    p["p2-axis-proximal"] = p["p2-axis-distal"] + [u(-3, 3), u(23, 30)]
    for side, out in (("medial", -1), ("lateral", 1)):
        at = lambda x, y: np.array([out * x, y])
        p["dip-p3-" + side] = at(20, u(43, 46))
        p["dip-p2-" + side] = p["dip-p3-" + side] + [u(-0.5, 0.5), u(1.6, 3)]
        p["p3-articular-" + side] = at(u(24, 26), u(43, 46))
        p["p3-distal-border-" + side] = at(u(34, 40), u(13, 20))
        p["wall-ground-" + side] = at(u(56, 66), u(-0.5, 0.5))
        p["wall-proximal-" + side] = at(u(48, 54), u(38, 46))
        p["coronet-" + side] = at(u(45, 50), u(50, 58))
    return p


def spreads(random, p):
    """A round spread for some landmarks, an ellipse along another pair's line for the rest."""
    ids = list(p)
    table = {}
    for name in ids:
        across, along = random.uniform(0.2, 1.2), random.uniform(0.2, 2.5)
        start, end = random.choice(ids, 2, replace=False) if random.random() < 0.6 else ("-", "-")
        table[name] = (across, along, start, end)
    return table


def covariance(p, spread):
    across, along, start, end = spread
    if start == "-":
        return max(across, along) ** 2 * np.eye(2)
    v = p[end] - p[start]
    v = v / np.linalg.norm(v)
    w = np.array([-v[1], v[0]])
    return along ** 2 * np.outer(v, v) + across ** 2 * np.outer(w, w)


def uncertainties(formulas, p, shod, table, share):
    h = 1e-4
    ids = list(formulas(p, shod))
    gradient = {i: [] for i in ids}
    blocks = []
    for name in p:
        for axis in (0, 1):
            step = np.zeros(2)
            step[axis] = h
            above, below = formulas({**p, name: p[name] + step}, shod), formulas(
                {**p, name: p[name] - step}, shod)
            for i in ids:
                gradient[i].append((above[i] - below[i]) / (2 * h))
        blocks.append(covariance(p, table[name]))
    larger = formulas({k: v * (1 + h) for k, v in p.items()}, shod)
    smaller = formulas({k: v * (1 - h) for k, v in p.items()}, shod)
    result = {}
    for i in ids:
        g = np.array(gradient[i]).reshape(-1, 2)
        variance = sum(row @ block @ row for row, block in zip(g, blocks))
        scale = (larger[i] - smaller[i]) / (2 * h) * share
        result[i] = np.sqrt(variance + scale ** 2)
    return result


# ---- the comparison ----

def as_text(view, shod, toward, width, height, share, p, table):
    sign = 1 if toward == "right" else -1
    lines = [f"foot {view} {'shod' if shod else 'bare'} {toward} {width!r} {height!r} {share!r}"]
    lines += [f"at {k} {float(1000 + sign * v[0] / width)!r} {float(1200 - v[1] / height)!r}"
              for k, v in p.items()]
    lines += ["spread {} {!r} {!r} {} {}".format(k, *s) for k, s in table.items()]
    return "\n".join(lines + ["end", ""])


def main():
    random = np.random.default_rng(SEED)
    feet, text = [], ""
    for number in range(FEET):
        view = ("lateromedial", "dorsopalmar")[number % 2]
        shod = bool(random.random() < 0.4)
        toward = ("left", "right")[int(random.integers(2))]
        width, height = float(random.uniform(0.08, 0.25)), float(random.uniform(0.08, 0.25))
        share = float(random.uniform(0, 0.03))
        p = (side_foot if view == "lateromedial" else front_foot)(random, shod)
        table = spreads(random, p)
        feet.append((view, shod, share, p, table))
        text += as_text(view, shod, toward, width, height, share, p, table)
    printed = subprocess.run([sys.argv[1]], input=text, capture_output=True, text=True, check=True)
    answers = [json.loads(line) for line in printed.stdout.splitlines()]
    assert len(answers) == FEET, f"{len(answers)} answers"

    worst, worst_share, compared, broken = {}, {}, 0, []
    for number, ((view, shod, share, p, table), answer) in enumerate(zip(feet, answers)):
        own = FORMULAS[view](p, shod)
        unsure = uncertainties(FORMULAS[view], p, shod, table, share)
        if set(own) != set(answer):
            broken.append(f"foot {number}: {sorted(set(own) ^ set(answer))} on one side only")
        for name, given in answer.items():
            if isinstance(given, str):
                broken.append(f"foot {number}: {name} refused: {given}")
                continue
            difference = abs(given[0] - own[name])
            off = abs(given[1] / unsure[name] - 1)
            worst[name] = max(worst.get(name, 0), difference)
            worst_share[name] = max(worst_share.get(name, 0), off)
            compared += 1
            if not (difference < LARGEST_DIFFERENCE and off < LARGEST_SHARE):
                broken.append(f"foot {number}, seed {SEED}: {name} {given} expected "
                              f"{own[name]!r}, {unsure[name]!r}")
    for name in sorted(worst):
        print(f"{name:28s} value {worst[name]:.1e}  uncertainty {worst_share[name]:.1e}")
    print(f"{compared} numbers of {FEET} feet, worst value {max(worst.values()):.1e}, "
          f"worst share of an uncertainty {max(worst_share.values()):.1e}")
    print("\n".join(broken))
    return 1 if broken or not compared else 0


if __name__ == "__main__":
    sys.exit(main())
