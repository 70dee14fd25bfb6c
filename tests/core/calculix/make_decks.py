#!/usr/bin/env python3
"""Writes slender.inp and short.inp: half of a hollow shaft (its plane of symmetry holds the loads) as
20-node solid elements. Bearings hold the mean deflection of a section, loads are spread over one. The
nodes of the set MEAN stand for the mean deflection of the sections at their y."""
import math

ROUND = 4  # elements over the half circle; their middle nodes lie on the true circle


def deck(name, title, sections, bearings, loads, others, step):
    cuts = sorted({s[0] for s in sections} | {sections[-1][1]} | set(bearings) | {y for y, _ in loads} | set(others))
    planes, spans = [cuts[0]], []
    for a, b in zip(cuts, cuts[1:]):
        section = next(s for s in sections if s[0] <= a and b <= s[1])
        count = max(1, round((b - a) / step))
        for j in range(count):
            spans.append(section)
            planes.append(a + (b - a) * (j + 1) / count)
    nodes, at, of_plane = [], {}, {}

    def node(i, angle, ring):
        """i: half spans along, angle: half elements around, ring: 0 inner, 1 middle, 2 outer."""
        key = (i, angle, ring)
        if key not in at:
            k = i // 2
            touching = [spans[j] for j in ({k} if i % 2 else {k - 1, k}) if 0 <= j < len(spans)]
            # One bore right through; the outside of the thinner neighbour at a step.
            outer, inner = min(s[2] for s in touching) / 2, touching[0][3] / 2
            radius = inner + (outer - inner) * ring / 2
            turn = math.pi * (angle / (2 * ROUND) - 0.5)
            y = planes[k] if i % 2 == 0 else (planes[k] + planes[k + 1]) / 2
            nodes.append((radius * math.cos(turn), y, radius * math.sin(turn)))
            at[key] = len(nodes)
            of_plane.setdefault(i, []).append(len(nodes))
        return at[key]

    elements = []
    for e in range(len(spans)):
        for a in range(0, 2 * ROUND, 2):
            i = 2 * e
            corner = [(0, 0), (2, 0), (2, 2), (0, 2)]  # (around, ring) of a face
            middle = [(1, 0), (2, 1), (1, 2), (0, 1)]
            # Seen along the shaft the corners must run so that the element has positive volume.
            order = [node(i, a + p, r) for p, r in corner] + [node(i + 2, a + p, r) for p, r in corner]
            order += [node(i, a + p, r) for p, r in middle] + [node(i + 2, a + p, r) for p, r in middle]
            order += [node(i + 1, a + p, r) for p, r in corner]
            elements.append(order)
    with open(name, "w") as out:
        line = lambda *v: print(*v, sep=", ", file=out)
        line("*HEADING")
        line(title)
        line("*NODE, NSET=ALL")
        for n, (x, y, z) in enumerate(nodes):
            line(n + 1, f"{x:.6g}", f"{y:.6g}", f"{z:.6g}")
        line("*ELEMENT, TYPE=C3D20R, ELSET=SHAFT")
        for n, e in enumerate(elements):
            line(n + 1, *e[:12])
            out.seek(out.tell() - 1)
            out.write(",\n")
            line(*e[12:])
        line("*MATERIAL, NAME=STEEL")
        line("*ELASTIC")
        line(207000, 0.3)
        line("*SOLID SECTION, ELSET=SHAFT, MATERIAL=STEEL")
        places = [y for y, _ in loads] + others
        line("*NODE, NSET=MEAN")
        mean = {y: len(nodes) + 1 + i for i, y in enumerate(places)}
        for y in places:
            line(mean[y], 0, f"{y:.6g}", 0)

        def section_weights(y):
            """Share of each node in the section's mean: the shapes' integrals over each face."""
            i = 2 * min(range(len(planes)), key=lambda k: abs(planes[k] - y))
            share = {}
            for a in range(0, 2 * ROUND, 2):
                for p, r in [(0, 0), (2, 0), (2, 2), (0, 2)]:
                    share[node(i, a + p, r)] = share.get(node(i, a + p, r), 0) - 1 / 12 / ROUND
                for p, r in [(1, 0), (2, 1), (1, 2), (0, 1)]:
                    share[node(i, a + p, r)] = share.get(node(i, a + p, r), 0) + 1 / 3 / ROUND
            return share

        def equation(y, more):
            share = section_weights(y)
            line("*EQUATION")
            line(len(share) + len(more))
            for n, w in sorted(share.items(), key=lambda item: -abs(item[1])):
                line(n, 3, f"{w:.9g}")
            for n, w in more:
                line(n, 3, w)

        line("*BOUNDARY")
        for n, (x, _, _) in enumerate(nodes):
            if abs(x) < 1e-9:
                line(n + 1, 1)
        axis = at[(2 * (len(planes) // 2), ROUND, 1)]
        line(axis, 2)
        for y in bearings:
            equation(y, [])
        for y in places:
            equation(y, [(mean[y], -1)])
        line("*STEP")
        line("*STATIC")
        line("*CLOAD")
        for y, force in loads:
            line(mean[y], 3, force / 2)
        line("*NODE PRINT, NSET=MEAN")
        line("U")
        line("*END STEP")


deck("slender.inp", "stepped hollow shaft, bearings 60 apart, one overhang loaded",
     [(-75, -28, 6.35, 4), (-28, 28, 6, 4), (28, 75, 6.35, 4)], [-30, 30], [(75, 30)], [-75, 0, 51], 3)
deck("short.inp", "short stiff hollow shaft, bearings 16 apart, both overhangs loaded",
     [(-18, 18, 8, 5)], [-8, 8], [(18, 100), (-18, 60)], [0], 1)
