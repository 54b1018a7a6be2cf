"""Every measurement again, by NumPy and SciPy, from the words of the definitions.

Truth: NumPy's linear algebra and SciPy's least_squares; uncertainties by central differences of
these formulas here (JCGM 100:2008, 5.1.2), so neither formulas nor derivatives are the program's.

Photos are the protocols' drawings, varied: with a plumb line and without, tilted, without a scale,
and through the map of a card seen from the side.

usage: test_reference.py MEASURE_DUMP TEMPLATES
"""

import json
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
from scipy.optimize import least_squares

SEED = 1234
FEET = 60
ANIMALS = 24       # of each photo protocol
MEASUREMENTS = 163
LARGEST_DIFFERENCE = 1e-9  # relative, or of 1 where a number is smaller
LARGEST_OF_CIRCLES = 1e-6  # both sides solve to about 1e-10; least_squares stops at 1e-12 of cost
BY_CIRCLES = {"p2-angle", "pip-deviation", "dip-deviation", "dip-joint-angle", "dip-height", "cor-toe",
              "cor-heel", "base-proportion", "cor-toe-capsule", "toe-excess", "ddft-moment-arm"}
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
    more_lateromedial(g, rise, dip, m)
    return m


def more_lateromedial(g, rise, dip, m):
    border = np.array([g[f"p3-solar-{i}"] for i in range(1, 6)])
    main = np.linalg.svd(border - border.mean(axis=0))[2][0]  # direction of least squared distances
    m["palmar-angle-solar-line"] = slope_from_heel(main if main[0] < 0 else -main)
    m["hoof-angle-proximal"] = rise("wall-dorsal-mid", "wall-dorsal-proximal")
    m["capsular-rotation-proximal"] = wrapped(m["p3-dorsal-angle"] - m["hoof-angle-proximal"])
    m["dip-joint-angle"] = 180 - m["dip-deviation"]
    m["hpa-deviation-external"] = wrapped(
        m["hoof-angle"] - rise("pastern-dorsal-distal", "pastern-dorsal-proximal"))
    m["toe-heel-difference"] = wrapped(m["hoof-angle"] - m["heel-angle"])
    m["coronet-angle"] = bearing(g["coronary-band"] - g["coronary-band-heel"])
    a, b, tip = g["sole-b"], g["sole-a"], g["p3-tip"]
    m["sole-depth-tip-vertical"] = tip[1] - a[1] - (tip[0] - a[0]) * (b[1] - a[1]) / (b[0] - a[0])
    m["wall-p3-ratio"] = m["wall-thickness-mid"] / far(g, "p3-tip", "p3-articular-palmar")
    m["heel-height"] = g["coronary-band-heel"][1]
    m["heel-toe-height-ratio"] = g["coronary-band-heel"][1] / g["coronary-band"][1]
    m["toe-heel-length-ratio"] = m["toe-length"] / far(g, "coronary-band-heel", "heel-ground")
    m["cor-toe-capsule"] = g["toe-most-dorsal"][0] - dip[0]
    m["toe-excess"] = m["cor-toe"] - m["cor-heel"]
    m["tip-toe-distance"] = g["toe-most-dorsal"][0] - g["p3-tip"][0]
    m["ddft-moment-arm"] = abs(off_line(dip, g["navicular-flexor-mid"], g["ddft-insertion"]))
    m["navicular-height"] = g["navicular-distal"][1] - g["p3-palmar-process"][1]
    m["navicular-p3-distance"] = far(g, "navicular-distal", "p3-articular-palmar")


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
    for side, out in (("medial", -1), ("lateral", 1)):
        m["pip-space-" + side] = off_line(g["pip-p1-" + side], g["pip-p2-medial"],
                                          g["pip-p2-lateral"])
        m["sole-depth-" + side] = g["p3-distal-border-" + side][1] - g["sole-" + side][1]
        bone = g["p3-abaxial-" + side]
        low, high = g["wall-ground-" + side], g["wall-proximal-" + side]
        at_height = low[0] + (high[0] - low[0]) * (bone[1] - low[1]) / (high[1] - low[1])
        m["p3-wall-" + side] = out * (at_height - bone[0])
    m["pip-symmetry-index"] = share_of_mean(m["pip-space-lateral"], m["pip-space-medial"])
    m["p3-ml-tilt-foramina"] = tilt("solar-foramen")
    for bone in ("p1", "mc3"):
        axis = g[bone + "-axis-proximal"] - g[bone + "-axis-distal"]
        m[bone + "-axis-ml-angle"] = 90 - bearing(axis)
    return m


# ---- photos ----

def far(g, a, b):
    return np.linalg.norm(g[a] - g[b])


def share_of_mean(a, b):
    return 100 * (a - b) / ((a + b) / 2)


def upright(p, view):
    """Points with y along the plumb line, or square to the ground where none hangs."""
    if "plumb-top" in p:
        up = p["plumb-top"] - p["plumb-bottom"]
        turn = frame({"a": np.zeros(2), "b": np.array([up[1], -up[0]])}, ("a", "b"))
    elif PAIR[view][0] in p:
        turn = frame(p, PAIR[view])
    else:
        turn = np.eye(2)  # nothing of this picture needs a level
    return {k: turn @ v for k, v in p.items()}


def clock(v):
    """Angle of a vector as a number on the complex unit circle."""
    z = v[0] + 1j * v[1]
    return z / abs(z)


def turns(upper, lower):
    """Degrees by which the lower segment leaves the upper one's line, + towards +x."""
    return np.degrees(np.angle(clock(lower) / clock(upper)))


def opening(joint, first, second, front):
    """Angle at the joint, measured round its front (+x) or its back."""
    a, b = clock(first - joint), clock(second - joint)
    up, down = (a, b) if a.imag > b.imag else (b, a)
    angle = np.degrees(np.angle(up / down)) % 360  # counter-clockwise from below to above: front
    return angle if front else 360 - angle


def beside(q, low, high):
    """Distance of q from the line low-high, + on the lateral side."""
    d = (high - low) / np.linalg.norm(high - low)
    away = q - low
    rest = away - d * (away @ d)
    return np.linalg.norm(rest) * np.sign(away[0] * d[1] - away[1] * d[0])


def index(g, low, high, medial, lateral):
    lateral_half, medial_half = beside(g[lateral], g[low], g[high]), -beside(
        g[medial], g[low], g[high])
    return 100 * (lateral_half - medial_half) / (lateral_half + medial_half)


def plumb(g, m, name, line, at, edges):
    m[name] = g[at][0] - g[line][0]
    m[name + "-share"] = 100 * m[name] / far(g, *edges)


def foot_side(g, m):
    rise = lambda d, q: slope_from_heel(g[q] - g[d])
    wall = rise("wall-dorsal-distal", "wall-dorsal-proximal")
    heel = rise("heel-wall-distal", "heel-wall-proximal")
    ground = frame(g, ("ground-heel", "ground-toe"))
    over = lambda k: (ground @ (g[k] - g["ground-heel"]))[1]
    m["photo-hoof-angle"], m["photo-heel-angle"] = wall, heel
    m["photo-toe-heel-difference"], m["heel-collapse"] = wall - heel, heel / wall
    m["photo-coronet-angle"] = bearing(g["hairline-toe"] - g["hairline-heel"])
    m["photo-hpa-deviation"] = wall - rise("pastern-dorsal-distal", "pastern-dorsal-proximal")
    m["photo-toe-length"] = far(g, "hairline-toe", "wall-toe-ground")
    m["photo-heel-length"] = far(g, "hairline-heel", "heel-ground")
    m["photo-toe-heel-length-ratio"] = m["photo-toe-length"] / m["photo-heel-length"]
    m["photo-heel-height"] = over("hairline-heel")
    m["photo-heel-toe-height-ratio"] = over("hairline-heel") / over("hairline-toe")
    m["heel-bulb-overhang"] = g["heel-ground"][0] - g["heel-bulb"][0]


def foot_front(g, m):
    for side, inwards in (("medial", 1), ("lateral", -1)):
        wall = g["wall-mid-" + side] - g["wall-ground-" + side]
        m["photo-wall-angle-" + side] = np.degrees(
            np.arccos(inwards * wall[0] / np.linalg.norm(wall)))
        m["foot-width-" + side] = -inwards * beside(g["wall-widest-" + side], g["toe-mid"],
                                                    g["pastern-mid"])
    m["capsule-distortion-ml"] = m["photo-wall-angle-medial"] - m["photo-wall-angle-lateral"]
    m["photo-coronet-ml-tilt"] = bearing(g["hairline-lateral"] - g["hairline-medial"])
    m["half-width-index"] = index(g, "toe-mid", "pastern-mid", "wall-widest-medial",
                                  "wall-widest-lateral")


def foot_behind(g, m):
    m["heel-bulb-offset"] = g["bulb-proximal-lateral"][1] - g["bulb-proximal-medial"][1]
    m["foot-heel-division"] = index(g, "cannon-mid-distal", "cannon-mid-proximal",
                                    "heel-ground-medial", "heel-ground-lateral")


def foot_above(g, m):
    foot, way = g["axis-toe"] - g["axis-heel"], g["travel-front"] - g["travel-back"]
    m["toe-direction"] = np.degrees(np.angle(clock(way) / clock(foot)))


def sole(g, m):
    low, high = g["frog-mid-1"], g["frog-mid-2"]
    v = (high - low) / np.linalg.norm(high - low)
    middle = lambda stem: (g[stem + "-medial"] + g[stem + "-lateral"]) / 2
    at = lambda q: (q - low) @ v
    heels, widest = at(middle("heel-buttress")), at(middle("wall-widest"))
    toe = at(g["toe-centre"])
    across = g["wall-widest-lateral"] - g["wall-widest-medial"]
    m["solar-width-medial"] = -beside(g["wall-widest-medial"], low, high)
    m["solar-width-lateral"] = beside(g["wall-widest-lateral"], low, high)
    m["solar-half-width-index"] = index(g, "frog-mid-1", "frog-mid-2", "wall-widest-medial",
                                        "wall-widest-lateral")
    m["solar-base-proportion"] = (toe - widest) / (toe - heels)
    m["solar-length-width"] = (toe - heels) / np.linalg.norm(across - v * (across @ v))
    m["horn-thickness-toe"] = far(g, "toe-centre", "white-line-toe")
    m["frog-width-ratio"] = far(g, "frog-widest-medial", "frog-widest-lateral") / np.linalg.norm(
        g["frog-apex-true"] - middle("frog-widest"))
    m["heel-width-ratio"] = far(g, "heel-buttress-medial", "heel-buttress-lateral") / far(
        g, "wall-widest-medial", "wall-widest-lateral")
    m["heel-forward-migration"] = heels - at(middle("frog-widest"))


def limb_side(g, m):
    rise = lambda d, q: slope_from_heel(g[q] - g[d])
    m["limb-pastern-slope"] = rise("dip-lateral", "fetlock-lateral")
    m["limb-hoof-angle"] = rise("wall-dorsal-distal", "wall-dorsal-proximal")
    m["limb-heel-angle"] = rise("heel-wall-distal", "heel-wall-proximal")
    m["pastern-minus-hoof"] = m["limb-pastern-slope"] - m["limb-hoof-angle"]
    m["hoof-minus-heel"] = m["limb-hoof-angle"] - m["limb-heel-angle"]


def fore_side(g, m):
    limb_side(g, m)
    m["shoulder-slope"] = slope_from_heel(g["scapular-spine-top"] - g["point-of-shoulder"])
    m["shoulder-minus-pastern"] = m["shoulder-slope"] - m["limb-pastern-slope"]
    line = "scapula-tuber"
    plumb(g, m, "fore-load-carpus", line, "carpus-lateral", ("carpus-palmar", "carpus-dorsal"))
    plumb(g, m, "fore-load-fetlock", line, "fetlock-lateral", ("fetlock-palmar", "fetlock-dorsal"))
    plumb(g, m, "fore-load-heel", line, "heel-ground", ("heel-ground", "wall-toe-ground"))
    elbow, carpus, fetlock = g["elbow"], g["carpus-lateral"], g["fetlock-lateral"]
    inner = np.degrees(np.arccos(np.real(clock(elbow - carpus) / clock(fetlock - carpus))))
    in_front = np.sign(beside(carpus, fetlock, elbow))
    m["carpus-sagittal"] = in_front * (180 - inner)
    m["carpus-angle"] = 180 + m["carpus-sagittal"]
    m["fetlock-angle"] = opening(fetlock, carpus, g["dip-lateral"], True)


def hind_side(g, m):
    limb_side(g, m)
    line = "tuber-ischii"
    plumb(g, m, "hind-plumb-hock", line, "hock-point", ("hock-point", "hock-dorsal"))
    plumb(g, m, "hind-plumb-cannon", line, "cannon-plantar-proximal",
          ("cannon-plantar-proximal", "cannon-dorsal-proximal"))
    plumb(g, m, "hind-plumb-fetlock", line, "fetlock-lateral", ("fetlock-palmar", "fetlock-dorsal"))
    m["hind-load-heel"] = g["heel-ground"][0] - g["greater-trochanter"][0]
    m["hip-angle"] = opening(g["greater-trochanter"], g["tuber-coxae"], g["stifle-lateral"], True)
    m["stifle-angle"] = opening(g["stifle-lateral"], g["greater-trochanter"], g["hock-lateral"],
                                False)
    m["hock-angle"] = opening(g["hock-lateral"], g["stifle-lateral"], g["fetlock-lateral"], True)
    m["hind-fetlock-angle"] = opening(g["fetlock-lateral"], g["mt3-proximal-lateral"],
                                      g["dip-lateral"], True)
    m["mt3-to-vertical"] = 90 + bearing(g["mt3-distal-lateral"] - g["mt3-proximal-lateral"])
    heel, toe, edge = g["hairline-heel"], g["hairline-toe"], g["fore-carpus-palmar"]
    line = np.polynomial.Polynomial.fit([heel[0], toe[0]], [heel[1], toe[1]], 1)
    m["coronet-line-carpus"] = line(edge[0]) - edge[1]
    m["coronet-line-carpus-share"] = 100 * m["coronet-line-carpus"] / (edge[1] - g["fore-ground"][1])


def limb_front(g, m):
    cannon = g["cannon-mid-distal"] - g["cannon-mid-proximal"]
    m["fetlock-frontal"] = turns(cannon, g["pastern-mid"] - g["fetlock-mid"])
    m["foot-to-cannon"] = turns(cannon, g["toe-mid"] - g["fetlock-mid"])
    m["limb-foot-width-index"] = index(g, "cannon-mid-distal", "cannon-mid-proximal",
                                       "wall-ground-medial", "wall-ground-lateral")


def fore_front(g, m):
    limb_front(g, m)
    for name, at, stem in (("carpus", "carpus-mid", "carpus"),
                           ("cannon", "cannon-mid-distal", "cannon"),
                           ("fetlock", "fetlock-mid", "fetlock"), ("foot", "toe-mid", "wall-ground")):
        plumb(g, m, "fore-plumb-" + name, "point-of-shoulder", at,
              (stem + "-medial", stem + "-lateral"))
    cannon = g["cannon-mid-distal"] - g["cannon-mid-proximal"]
    m["carpus-frontal"] = turns(g["carpus-mid"] - g["elbow-mid"], cannon)
    place = {}
    for bone in ("cannon", "radius"):
        high, low = g[bone + "-mid-proximal"], g[bone + "-mid-distal"]
        share = (g["carpus-mid"][1] - low[1]) / (high[1] - low[1])
        place[bone] = low[0] + share * (high[0] - low[0])
    m["carpus-offset"] = place["cannon"] - place["radius"]
    m["base-ratio"] = abs(g["toe-mid"][0] - g["other-toe-mid"][0]) / abs(
        g["point-of-shoulder"][0] - g["other-point-of-shoulder"][0])


def limb_behind(g, m):
    cannon = g["cannon-mid-distal"] - g["cannon-mid-proximal"]
    m["fetlock-frontal-behind"] = turns(cannon, g["bulb-mid"] - g["fetlock-mid"])
    m["heel-division"] = index(g, "cannon-mid-distal", "cannon-mid-proximal", "heel-ground-medial",
                               "heel-ground-lateral")


def hind_behind(g, m):
    limb_behind(g, m)
    for name, at, stem in (("hock", "hock-mid", "hock"), ("cannon", "cannon-mid-distal", "cannon"),
                           ("fetlock", "fetlock-mid", "fetlock"),
                           ("foot", "bulb-mid", "heel-ground")):
        plumb(g, m, "hind-plumb-caudal-" + name, "tuber-ischii", at,
              (stem + "-medial", stem + "-lateral"))
    m["hock-frontal"] = turns(g["hock-mid"] - g["tibia-mid-proximal"],
                              g["cannon-mid-distal"] - g["cannon-mid-proximal"])


def hanging(g, m):
    cannon = g["cannon-mid-distal"] - g["cannon-mid-proximal"]
    m["hanging-fetlock-frontal"] = turns(cannon, g["pastern-mid"] - g["fetlock-mid"])
    m["hanging-foot-to-cannon"] = turns(cannon, g["foot-mid"] - g["fetlock-mid"])
    heels = g["heel-buttress-lateral"] - g["heel-buttress-medial"]
    m["hanging-heel-line"] = np.degrees(np.arccos(np.real(clock(cannon) / clock(heels))))
    m["hanging-heel-division"] = index(g, "cannon-mid-distal", "cannon-mid-proximal",
                                       "heel-buttress-medial", "heel-buttress-lateral")


def fore_hanging(g, m):
    hanging(g, m)
    m["hanging-carpus-frontal"] = turns(g["carpus-mid"] - g["radius-mid-proximal"],
                                        g["cannon-mid-distal"] - g["cannon-mid-proximal"])


def photo(view, fill):
    def formulas(p, _shod):
        m = {}
        fill(upright(p, view), m)
        return m
    return formulas


SIDE, ACROSS = ("ground-heel", "ground-toe"), ("ground-medial", "ground-lateral")
VIEWS = ("lateromedial", "foot-side", "limb-side")
PAIR = {v: SIDE if v in VIEWS else ACROSS
        for v in VIEWS + ("dorsopalmar", "foot-front", "foot-behind", "foot-above", "sole",
                          "limb-front", "limb-behind", "limb-hanging")}
PHOTOS = {"foot-side": foot_side, "foot-front": foot_front, "foot-behind": foot_behind,
          "foot-above": foot_above, "sole": sole, "fore-limb-side": fore_side,
          "hind-limb-side": hind_side, "fore-limb-front": fore_front,
          "fore-limb-behind": limb_behind, "hind-limb-behind": hind_behind,
          "fore-limb-hanging": fore_hanging, "hind-limb-hanging": hanging}
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
    p["coronary-band-heel"] = up(p["heel-ground"], dorsal - u(2, 15), 42)
    p["wall-dorsal-mid"] = up(wall, dorsal - rotation + u(-3, 3), -20)
    for i in range(1, 6):
        p[f"p3-solar-{i}"] = up(tip, palmar, 8 + 9 * i) + [0, u(1, 3)]
    p["p3-articular-palmar"] = dip + [u(-2, 4), -u(17, 21)]
    p["navicular-distal"], p["navicular-flexor-mid"] = dip + [-5, -u(21, 25)], dip + [-18, -u(20, 25)]
    p["ddft-insertion"] = dip + [u(2, 6), -u(29, 33)]
    p["toe-most-dorsal"] = p["wall-toe-ground"] + [u(0, 2), u(0, 2)]
    p["pastern-dorsal-distal"] = up(pip, p1, 12) + [17, u(12, 15)]
    p["pastern-dorsal-proximal"] = up(pip, p1 + u(-4, 4), 58) + [15, u(12, 15)]
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
        p["sole-" + side] = p["p3-distal-border-" + side] + [u(-2, 2), -u(9, 14)]
        p["p3-abaxial-" + side] = at(u(38, 41), u(20, 25))
        p["solar-foramen-" + side] = at(u(10, 12), u(26, 30))
        p["pip-p2-" + side] = at(u(13, 15), u(86, 90))
        p["pip-p1-" + side] = p["pip-p2-" + side] + [u(-0.5, 0.5), u(1.5, 3)]
    p["p1-axis-distal"], p["p1-axis-proximal"] = np.array([u(-3, 3), 110]), np.array([u(-5, 5), 152])
    p["mc3-axis-distal"], p["mc3-axis-proximal"] = np.array([u(-5, 5), 210]), np.array([u(-7, 7), 240])
    return p


class Protocol:
    def __init__(self, path):
        text = json.loads(path.read_text())
        box = re.search(r'viewBox="([^"]+)"', (path.parent / text["schematic"]).read_text()).group(1)
        _, _, wide, high = map(float, box.split())
        self.id, self.view = text["id"], text["view"]
        self.limb = "right-hind" if text["legs"] == "hind" else "left-fore"
        self.width = text["schematic_width_mm"]
        self.height = self.width * high / wide
        self.points = {l["id"]: np.array([l["schematic_x"] * self.width,
                                          (1 - l["schematic_y"]) * self.height])
                       for l in text["landmarks"] if not l["only_shod"]}

    def animal(self, random):
        """The drawing, stretched, sheared and turned, each point moved by a few millimetres."""
        free = 2 if self.width < 300 else 5
        shape = np.array([[random.uniform(0.85, 1.15), random.uniform(-0.05, 0.05)],
                          [random.uniform(-0.05, 0.05), random.uniform(0.85, 1.15)]])
        p = {k: shape @ v + random.uniform(-free, free, 2) for k, v in self.points.items()}
        if random.random() < 0.4:
            p.pop("plumb-top", None), p.pop("plumb-bottom", None)
        elif random.random() < 0.3 and self.id != "foot-side":  # heights there need the ground
            for name in PAIR[self.view]:
                p.pop(name, None)
        a = np.radians(random.uniform(-12, 12))
        turn = np.array([[np.cos(a), -np.sin(a)], [np.sin(a), np.cos(a)]])
        return {k: turn @ v for k, v in p.items()}


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


def uncertainties(formulas, p, shod, table, share, common):
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
        together = sum((g * shifts).sum() ** 2 for shifts in common)
        result[i] = np.sqrt(variance + scale ** 2 + together)
    return result


# ---- the comparison ----

class Plain:
    """Pixels of a plain scale, or of none: then lengths can't be known."""

    def __init__(self, random, scaled):
        self.scaled = scaled
        self.width, self.height = float(random.uniform(0.08, 0.25)), float(random.uniform(0.08, 0.25))
        self.share = float(random.uniform(0, 0.03)) if scaled else 0.0
        self.common = []

    def pixels(self, p, sign):
        return {k: (1000 + sign * v[0] / self.width, 1200 - v[1] / self.height)
                for k, v in p.items()}

    def head(self):
        if self.scaled:
            return f"{self.width!r} {self.height!r} {self.share!r}", []
        return f"1 {self.height / self.width!r} 0", [f"unscaled {self.width!r}"]


class Card:
    """The map of a card seen from the side, with components of its uncertainty."""

    scaled = True

    def __init__(self, random, extent):
        s = extent / 3000
        n = lambda spread: random.normal(0, spread)
        self.map = np.array([[s, n(0.05 * s), n(50)], [n(0.05 * s), s * 1.1, n(50)],
                             [n(1.5e-5), n(1.5e-5), 1]])
        self.moved = [self.map + np.array([[n(1e-3 * s), n(1e-3 * s), n(1)],
                                           [n(1e-3 * s), n(1e-3 * s), n(1)], [n(2e-7), n(2e-7), 0]])
                      for _ in range(int(random.integers(1, 9)))]
        self.share = float(random.uniform(0, 0.02))

    @staticmethod
    def through(matrix, xy):
        x, y, w = matrix @ np.array([xy[0], xy[1], 1])
        return np.array([x / w, y / w])

    def pixels(self, p, sign):
        flip = np.array([sign, -1])
        at = {k: self.through(np.linalg.inv(self.map), v * flip) for k, v in p.items()}
        self.common = [np.array([(self.through(m, q) - self.through(self.map, q)) * flip
                                 for q in at.values()]) for m in self.moved]
        return at

    def head(self):
        text = lambda m: " ".join(repr(float(v)) for v in m.ravel())
        return f"1 1 {self.share!r}", ["card " + text(self.map)] + ["sigma " + text(m)
                                                                   for m in self.moved]


class Case:
    """A foot or limb in a picture, as the program gets it and as this file knows it."""

    def __init__(self, name, view, limb, shod, toward, scale, p, table, formulas):
        self.name, self.shod, self.scale, self.p = name, shod, scale, p
        self.table, self.formulas = table, formulas
        pixels = scale.pixels(p, 1 if toward == "right" else -1)
        numbers, more = scale.head()
        lines = [f"foot {view} {limb} {'shod' if shod else 'bare'} {toward} {numbers}"] + more
        lines += [f"at {k} {float(v[0])!r} {float(v[1])!r}" for k, v in pixels.items()]
        lines += ["spread {} {!r} {!r} {} {}".format(k, *s) for k, s in table.items()]
        self.text = "\n".join(lines + ["end", ""])

    def expected(self):
        values = self.formulas(self.p, self.shod)
        unsure = uncertainties(self.formulas, self.p, self.shod, self.table, self.scale.share,
                               self.scale.common)
        return {k: (v, unsure[k]) for k, v in values.items()}


def radiographs(random):
    for number in range(FEET):
        view = ("lateromedial", "dorsopalmar")[number % 2]
        shod = bool(random.random() < 0.4)
        toward = ("left", "right")[int(random.integers(2))]
        p = (side_foot if view == "lateromedial" else front_foot)(random, shod)
        yield Case(f"{view} {number}", view, ("left-fore", "right-hind")[number // 2 % 2], shod,
                   toward, Plain(random, True), p, spreads(random, p), FORMULAS[view])


def photos(random, protocols):
    for protocol in protocols:
        for number in range(ANIMALS):
            toward = ("left", "right")[number % 2]
            scale = (Card(random, protocol.width), Plain(random, True), Card(random, protocol.width),
                     Plain(random, False))[number % 4]
            p = protocol.animal(random)
            yield Case(f"{protocol.id} {number}", protocol.view, protocol.limb, False, toward, scale,
                       p, spreads(random, p), photo(protocol.view, PHOTOS[protocol.id]))


def main():
    random = np.random.default_rng(SEED)
    protocols = [Protocol(path) for path in sorted(Path(sys.argv[2], "protocols").glob("*.json"))
                 if path.stem in PHOTOS]
    assert len(protocols) == len(PHOTOS)
    cases = [*radiographs(random), *photos(random, protocols)]
    printed = subprocess.run([sys.argv[1]], input="".join(c.text for c in cases),
                             capture_output=True, text=True, check=True)
    answers = [json.loads(line) for line in printed.stdout.splitlines()]
    assert len(answers) == len(cases), f"{len(answers)} answers"

    worst, worst_share, compared, broken = {}, {}, 0, []
    for case, answer in zip(cases, answers):
        own = case.expected()
        if set(own) != set(answer):
            broken.append(f"{case.name}: {sorted(set(own) ^ set(answer))} on one side only")
        for name, given in answer.items():
            if isinstance(given, str):
                if case.scale.scaled or given != "the picture has no scale":
                    broken.append(f"{case.name}: {name} refused: {given}")
                continue
            value, unsure = own[name]
            difference = abs(given[0] - value) / max(1, abs(value))
            off = abs(given[1] / unsure - 1)
            worst[name] = max(worst.get(name, 0), difference)
            worst_share[name] = max(worst_share.get(name, 0), off)
            compared += 1
            largest = LARGEST_OF_CIRCLES if name in BY_CIRCLES else LARGEST_DIFFERENCE
            if not (difference < largest and off < LARGEST_SHARE):
                broken.append(f"{case.name}, seed {SEED}: {name} {given} expected {value!r}, "
                              f"{unsure!r}")
    for name in sorted(worst):
        print(f"{name:34s} value {worst[name]:.1e}  uncertainty {worst_share[name]:.1e}")
    straight = max(v for k, v in worst.items() if k not in BY_CIRCLES)
    print(f"{compared} numbers of {len(worst)} measurements, {len(cases)} pictures; worst value "
          f"{max(worst.values()):.1e}, without circles {straight:.1e}, worst share of an uncertainty "
          f"{max(worst_share.values()):.1e}")
    print("\n".join(broken[:60]))
    return 1 if broken or len(worst) < MEASUREMENTS else 0


if __name__ == "__main__":
    sys.exit(main())
