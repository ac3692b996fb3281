"""The survey file: read it, check it, publish its schema, write a new one to fill in."""

from counterhoop.shell.survey_file.gate import survey_bytes
from counterhoop.shell.survey_file.read import SurveyRead, read_survey

__all__ = ["SurveyRead", "read_survey", "survey_bytes"]
