#!/usr/bin/env python3
"""Drives the real binary as a person at a shell would. Usage: test_cli.py PRITCHEL SOURCE_DIR"""

import json
import pathlib
import shlex
import subprocess
import sys
import tempfile
import unittest

PRITCHEL = str(pathlib.Path(sys.argv[1]).resolve())
SOURCE = pathlib.Path(sys.argv[2]).resolve()
EXAMPLE = SOURCE / "docs/formats/examples/reading.json"


def run(*words, cwd=SOURCE):
    return subprocess.run([PRITCHEL, *map(str, words)], capture_output=True, text=True, cwd=cwd, timeout=120)


class Scratch(unittest.TestCase):
    def setUp(self):
        self.folder = tempfile.TemporaryDirectory()
        self.path = pathlib.Path(self.folder.name)

    def tearDown(self):
        self.folder.cleanup()

    def refused(self, *words):
        """Exit 2, nothing on standard output, one clear line on standard error."""
        done = run(*words, cwd=self.path)
        self.assertEqual(done.returncode, 2, done.stderr)
        self.assertEqual(done.stdout, "")
        lines = [line for line in done.stderr.splitlines() if line]
        self.assertEqual(len(lines), 1, done.stderr)
        return lines[0]


class Agreement(Scratch):
    def test_a_store_that_nobody_read_twice_has_nothing_to_compare(self):
        store = self.path / "store"
        self.assertEqual(run("demo", store).returncode, 0)
        done = run("agreement", "--store", store)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIn("0 pictures were read independently more than once", done.stdout)
        answer = json.loads(run("agreement", "--store", store, "--json").stdout)
        self.assertEqual(answer["format"], "pritchel-agreement")
        self.assertEqual((answer["readers"], answer["repeats"], answer["landmarks"]), ([], [], []))
        self.assertIn("nobody", self.refused("agreement", "nobody", "--store", store))


class Measure(Scratch):
    def changed_example(self, change):
        reading = json.loads(EXAMPLE.read_text())
        change(reading)
        path = self.path / "reading.json"
        path.write_text(json.dumps(reading))
        return path

    def measured(self, path):
        done = run("measure", path)
        self.assertEqual(done.returncode, 0, done.stderr)
        return {each["id"]: each for each in json.loads(done.stdout)["measurements"]}

    def test_the_example_of_the_docs_gives_the_palmar_angle_of_its_own_points(self):
        # Truth: geometry, atan2 of the two points' difference; level ground, square pixels
        import math
        points = json.loads(EXAMPLE.read_text())["landmarks"]
        tip, process = points["p3-tip"], points["p3-palmar-process"]
        expected = math.degrees(math.atan2(tip[1] - process[1], abs(process[0] - tip[0])))
        found = self.measured(EXAMPLE)["palmar-angle"]
        self.assertAlmostEqual(found["value"], expected, places=6)
        self.assertEqual(found["unit"], "deg")
        self.assertGreater(found["standard_uncertainty"], 0)
        self.assertIn(found["status"], ("within", "below", "above", "cannot-tell"))

    def test_a_missing_landmark_makes_its_measurements_not_measurable_and_names_it(self):
        path = self.changed_example(lambda r: r["landmarks"].pop("p3-tip"))
        found = self.measured(path)
        self.assertEqual(found["palmar-angle"]["status"], "not-measurable")
        self.assertIn("p3-tip", found["palmar-angle"]["missing"])
        self.assertNotIn("value", found["palmar-angle"])
        self.assertIn("value", found["hoof-angle"])

    def test_without_a_scale_there_are_angles_and_no_millimetres(self):
        path = self.changed_example(lambda r: r.update(calibration={"kind": "none"}))
        for each in self.measured(path).values():
            if each["unit"] == "mm":
                self.assertNotIn("value", each, each["id"])
        self.assertIn("value", self.measured(path)["palmar-angle"])

    def test_bad_readings_are_refused_in_one_sentence_that_names_the_place(self):
        cases = {
            "landmarks.p3-tip": lambda r: r["landmarks"].update({"p3-tip": ["a", 1]}),
            "view": lambda r: r.update(view="sideways"),
            "limb": lambda r: r.update(limb="left"),
            "calibration": lambda r: r.update(
                calibration={"kind": "spacing", "mm_per_pixel": [150, 150]}),
            "version": lambda r: r.update(version=99),
        }
        for place, change in cases.items():
            with self.subTest(place):
                self.assertIn(place, self.refused("measure", self.changed_example(change)))

    def test_a_number_that_is_no_number_is_refused(self):
        path = self.path / "nan.json"
        path.write_text(EXAMPLE.read_text().replace("1340.0", "NaN"))
        self.refused("measure", path)

    def test_files_that_are_not_readings_are_refused(self):
        text = self.path / "notes.json"
        text.write_text("the near fore looked long today")
        self.refused("measure", text)
        self.refused("measure", self.path / "absent.json")


class Pictures(Scratch):
    def test_a_text_file_renamed_to_dicom_is_refused(self):
        fake = self.path / "film.dcm"
        fake.write_text("not a film\n" * 100)
        self.assertIn("film.dcm", self.refused("picture", fake))

    def test_a_cut_radiograph_is_refused(self):
        whole = sorted((SOURCE / "sample-images").glob("*lateromedial.dcm"))[0].read_bytes()
        cut = self.path / "cut.dcm"
        cut.write_bytes(whole[: len(whole) // 2])
        self.assertIn("cut.dcm", self.refused("picture", cut))

    def test_a_sample_radiograph_says_what_its_header_holds(self):
        done = run("picture", sorted((SOURCE / "sample-images").glob("*lateromedial.dcm"))[0])
        self.assertEqual(done.returncode, 0, done.stderr)
        facts = json.loads(done.stdout)
        self.assertEqual(facts["kind"], "radiograph")
        self.assertIn(facts["facts"]["laterality"], ("L", "R"))


class Sample(Scratch):
    def test_demo_report_and_answers_do_the_whole_job(self):
        store, paper = self.path / "store", self.path / "paper.pdf"
        done = run("demo", store)
        self.assertEqual(done.returncode, 0, done.stderr)
        done = run("demo", store)
        self.assertEqual(done.returncode, 0, "demo twice keeps what is there: " + done.stderr)
        done = run("report", "--store", store, "--out", paper)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual(paper.read_bytes()[:5], b"%PDF-")
        self.assertEqual(subprocess.run(["qpdf", "--check", paper], capture_output=True).returncode, 0)
        text = subprocess.run(["pdftotext", paper, "-"], capture_output=True, text=True).stdout
        self.assertIn("Palmar angle", text)
        done = run("answers", paper)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertIsInstance(json.loads(done.stdout), dict)

    def test_the_sample_readings_measure_without_a_store(self):
        readings = sorted((SOURCE / "sample-images").glob("*.reading.json"))
        self.assertGreaterEqual(len(readings), 8)
        for reading in readings:
            with self.subTest(reading.name):
                done = run("measure", reading)
                self.assertEqual(done.returncode, 0, done.stderr)
                answer = json.loads(done.stdout)
                values = [m for m in answer["measurements"] if "value" in m]
                self.assertGreater(len(values), 15)
                checks = {check["id"]: check["verdict"] for check in answer["checks"]}
                wall = "exposure-dorsal" if answer["view"] == "lateromedial" else "exposure-medial"
                self.assertIn(wall, checks, "the pixels were looked at")
                self.assertIn(checks["ground-tilt"], ("fit", "caution"))

    def test_a_store_that_is_no_store_and_a_case_that_is_not_there_are_refused(self):
        store = self.path / "store"
        self.assertEqual(run("demo", store).returncode, 0)
        self.refused("report", "no-such-horse", "--store", store, "--out", self.path / "x.pdf")
        (self.path / "file").write_text("x")
        self.refused("cases", "--store", self.path / "file")
        self.assertFalse((self.path / "x.pdf").exists())


class Help(Scratch):
    COMMANDS = ("measure", "report", "serve", "demo", "import", "cases", "picture", "answers", "list")

    def test_every_command_explains_itself_with_examples(self):
        self.assertEqual(run("--help").returncode, 0)
        for command in self.COMMANDS:
            done = run(command, "--help")
            self.assertEqual(done.returncode, 0)
            self.assertIn("Example", done.stdout, command)

    def test_the_examples_of_the_help_run(self):
        """Those that end by themselves and need no paper filled in by hand."""
        self.assertEqual(run("demo", "sample", cwd=self.path).returncode, 0)
        for name in ("docs", "sample-images"):
            (self.path / name).symlink_to(SOURCE / name)
        for command in ("measure", "report", "import", "cases", "picture", "list"):
            for line in run(command, "--help").stdout.splitlines():
                words = line.strip()
                if not words.startswith("pritchel ") or "READING" in words or "measure reading.json" in words:
                    continue
                for part in words.split("&&"):
                    call = shlex.split(part.split(">")[0])
                    with self.subTest(part):
                        done = run(*call[1:], cwd=self.path)
                        self.assertEqual(done.returncode, 0, done.stderr)

    def test_unknown_words_exit_with_2(self):
        for words in (["dance"], ["measure"], ["report", "--paper", "A3"], []):
            self.assertEqual(run(*words).returncode, 2, words)


REMAKE_DOCS = ("run: pritchel list measurements --markdown --drawings docs/drawings "
               "> docs/measurements.md")


class Docs(Scratch):
    def test_the_list_of_measurements_in_the_docs_is_fresh(self):
        printed = run("list", "measurements", "--markdown").stdout
        self.assertEqual(printed, (SOURCE / "docs/measurements.md").read_text(), REMAKE_DOCS)

    def test_the_drawings_of_the_measurements_are_fresh(self):
        fresh = self.path / "drawings"
        done = run("list", "measurements", "--drawings", str(fresh))
        self.assertEqual(done.returncode, 0, done.stderr)
        kept = SOURCE / "docs/drawings"
        self.assertEqual(sorted(each.name for each in fresh.glob("*.svg")),
                         sorted(each.name for each in kept.glob("*.svg")), REMAKE_DOCS)
        for each in fresh.glob("*.svg"):
            with self.subTest(each.name):
                self.assertEqual(each.read_text(), (kept / each.name).read_text(), REMAKE_DOCS)

    def test_every_measurement_has_its_drawing(self):
        listed = [line.split()[0] for line in run("list", "measurements").stdout.splitlines()]
        self.assertGreater(len(listed), 100)
        for name in listed:
            with self.subTest(name):
                drawing = (SOURCE / "docs/drawings" / f"{name}.svg").read_bytes()
                self.assertLess(len(drawing), 15_000)


if __name__ == "__main__":
    unittest.main(argv=sys.argv[:1], verbosity=2)
