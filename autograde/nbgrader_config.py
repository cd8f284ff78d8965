"""For nbgrader's own commands in this folder (formgrader, export): the folders of `twostroke grade`."""

from twostroke.grading.place import Course, prepare_environment

prepare_environment()
c = get_config()  # noqa: F821  (given by nbgrader)
c.merge(Course.at().config())
