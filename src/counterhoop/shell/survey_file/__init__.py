"""The survey file: read it, check it, publish its schema, write a new one to fill in."""

from counterhoop.shell.survey_file.gate import survey_bytes
from counterhoop.shell.survey_file.read import SurveyRead, read_survey
from counterhoop.shell.survey_file.schema import json_schema
from counterhoop.shell.survey_file.template import new_survey

__all__ = ["SurveyRead", "json_schema", "new_survey", "read_survey", "survey_bytes"]
