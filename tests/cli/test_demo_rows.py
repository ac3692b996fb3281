"""The demonstration's shelf as files. Truth: by hand."""


def test_the_shelf_of_the_worked_job_is_written_as_files(run, tmp_path):
    ran = run("demo", "--rows", tmp_path / "rows")
    assert ran.code == 0
    names = {"shelf.csv", "shelf.xlsx", "dated-features.toml"}
    assert names <= {path.name for path in (tmp_path / "rows").iterdir()}
    assert all(name in ran.out for name in names)
