"""From files to plans: the builds of a content folder, read and planned."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from guide_gen.description.read import read
from guide_gen.model.finding import Finding, Level
from guide_gen.model.plan import Plan
from guide_gen.planning.plan import plan

BUILDS = Path("content") / "builds"
NAME = "build.yaml"


@dataclass(frozen=True)
class Loaded:
    """Plans of the builds that can be read, and the problems of those that cannot."""

    plans: tuple[Plan, ...]
    problems: tuple[Finding, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Problems and findings of all builds in one list, sorted by file and place."""
        found = [*self.problems, *(finding for one in self.plans for finding in one.findings)]
        return tuple(sorted(found, key=lambda finding: (finding.where, finding.code)))

    @property
    def must_fix(self) -> bool:
        """Whether a problem or a *must fix* finding stands."""
        return any(finding.level is Level.MUST for finding in self.findings)


def build_files(root: Path) -> tuple[Path, ...]:
    """Every build under content/builds, by name."""
    return tuple(sorted((root / BUILDS).glob(f"*/{NAME}")))


def load_builds(root: Path, builds: Sequence[Path] | None = None) -> Loaded:
    """Read and plan builds: folders or YAML files; None means every build under content/builds."""
    files = [path / NAME if path.is_dir() else path for path in builds] if builds else build_files(root)
    descriptions = [read(path, root) for path in files]
    problems = tuple(problem for one in descriptions for problem in one.problems)
    return Loaded(tuple(plan(one) for one in descriptions if one.build is not None and not one.problems), problems)
