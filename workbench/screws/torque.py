"""Torque and preload: the long form, the exact wedge behind it, and the nut factor.

N, mm, N mm; a torque in N m is torque_nmm / 1000. d2: pitch diameter, P: pitch, Dk: mean diameter of the turning
face. The thread coefficient rubs on a flank that leans by flank_deg (30 deg for metric and Unified threads).
Sources: VDI 2230 (long form), Motosh 1976; textbooks of machine design (exact form, nut factor).
"""

import math
from dataclasses import dataclass

from workbench.refusals import numbers, one_number

_FRICTION = "friction is never negative, and 0.12 is meant, not 12"


@dataclass(frozen=True)
class Torque:
    """Where a tightening torque goes, in N mm: stretching the bolt, rubbing in the thread, rubbing under the face."""

    stretch_nmm: float
    thread_nmm: float
    face_nmm: float

    @property
    def total_nmm(self):
        """What the wrench must give."""
        return self.stretch_nmm + self.thread_nmm + self.face_nmm

    @property
    def in_thread_nmm(self):
        """What twists the bolt: stretch and thread friction."""
        return self.stretch_nmm + self.thread_nmm

    @property
    def useful_share(self):
        """The part of the torque that stretches the bolt."""
        return self.stretch_nmm / self.total_nmm


def _friction(name, value):
    return numbers(name, value, at_least=0, at_most=1, cause=_FRICTION)


def _lean(flank_deg):
    """1 / cos of the flank angle: 1.155 for 30 deg."""
    return 1 / math.cos(math.radians(one_number("flank_deg", flank_deg, at_least=0, at_most=60)))


def _per_newton(pitch_mm, pitch_diameter_mm, thread_friction, face_mean_mm, face_friction, flank_deg):
    """Torque for 1 N of preload, in its three parts (mm)."""
    stretch = numbers("pitch_mm", pitch_mm, above=0) / (2 * math.pi)
    arm = numbers("pitch_diameter_mm", pitch_diameter_mm, above=0) / 2
    thread = arm * _friction("thread_friction", thread_friction) * _lean(flank_deg)
    face = numbers("face_mean_mm", face_mean_mm, above=0) / 2 * _friction("face_friction", face_friction)
    return stretch, thread, face


def long_form(preload_n, pitch_mm, pitch_diameter_mm, thread_friction, face_mean_mm, face_friction, flank_deg=30):
    """Torque for a preload: F (P / 2 pi + mu_G d2 / (2 cos flank) + mu_K Dk / 2), as 0.159 P, 0.577 mu_G d2 for 30 deg.

    preload_n >= 0; frictions 0 to 1; lengths > 0; numbers or arrays. Refused: negative friction. Source: VDI 2230.

    >>> round(long_form(24000, 1.5, 9.026, 0.12, 13, 0.12).total_nmm / 1000, 2)
    39.46
    """
    force = numbers("preload_n", preload_n, at_least=0, cause="a bolt only pulls")
    parts = _per_newton(pitch_mm, pitch_diameter_mm, thread_friction, face_mean_mm, face_friction, flank_deg)
    return Torque(*(force * part for part in parts))


def preload_n(torque_nmm, pitch_mm, pitch_diameter_mm, thread_friction, face_mean_mm, face_friction, flank_deg=30):
    """The reverse of `long_form`: preload from a torque at the nut, in N.

    >>> round(preload_n(39450, 1.5, 9.026, 0.12, 13, 0.12), -1)
    24000.0
    """
    torque = numbers("torque_nmm", torque_nmm, at_least=0, cause="is it in N m? 40 N m are 40000 N mm")
    parts = _per_newton(pitch_mm, pitch_diameter_mm, thread_friction, face_mean_mm, face_friction, flank_deg)
    return torque / sum(parts)


def exact_form(preload_n, pitch_mm, pitch_diameter_mm, thread_friction, face_mean_mm, face_friction, flank_deg=30):
    """Torque with the wedge in full: F d2/2 tan(lead angle + friction angle) + F mu_K Dk / 2.

    The long form leaves out a term of about half a percent. Friction angle: atan(mu / cos flank). Refused as in
    `long_form`, and a thread that cannot be turned. Source: textbooks of machine design.

    >>> round(exact_form(24000, 1.5, 9.026, 0.12, 13, 0.12).total_nmm / 1000, 2)
    39.61
    """
    force = numbers("preload_n", preload_n, at_least=0, cause="a bolt only pulls")
    stretch, thread, face = _per_newton(
        pitch_mm, pitch_diameter_mm, thread_friction, face_mean_mm, face_friction, flank_deg
    )
    arm = pitch_diameter_mm / 2
    climb, rub = stretch / arm, thread / arm
    numbers("1 - climb x friction", 1 - climb * rub, above=0, cause="with this friction the thread cannot be turned")
    turning = arm * (climb + rub) / (1 - climb * rub)
    return Torque(force * stretch, force * (turning - stretch), force * face)


def face_mean_mm(face_mm, hole_mm):
    """Mean diameter of the turning face: (face + hole) / 2.

    >>> face_mean_mm(14.6, 11)
    12.8
    """
    face, hole = numbers("face_mm", face_mm, above=0), numbers("hole_mm", hole_mm, above=0)
    numbers("face_mm - hole_mm", face - hole, above=0, cause="a head that is no wider than its hole pulls through")
    return (face + hole) / 2


def nut_factor(torque_nmm, preload_n, diameter_mm):
    """K = T / (F d): all friction in one figure, measured or from a table.

    >>> nut_factor(48000, 24000, 10)
    0.2
    """
    force = numbers("preload_n", preload_n, above=0) * numbers("diameter_mm", diameter_mm, above=0)
    return numbers("torque_nmm", torque_nmm, at_least=0) / force


def nut_factor_torque_nmm(factor, preload_n, diameter_mm):
    """T = K F d in N mm; K from 0.05 to 0.6.

    >>> round(nut_factor_torque_nmm(0.2, 24000, 10))
    48000
    """
    force = numbers("preload_n", preload_n, at_least=0) * numbers("diameter_mm", diameter_mm, above=0)
    return _factor(factor) * force


def nut_factor_preload_n(factor, torque_nmm, diameter_mm):
    """F = T / (K d).

    >>> round(nut_factor_preload_n(0.14, 48000, 10))
    34286
    """
    torque = numbers("torque_nmm", torque_nmm, at_least=0, cause="is it in N m? 40 N m are 40000 N mm")
    return torque / (_factor(factor) * numbers("diameter_mm", diameter_mm, above=0))


def _factor(value):
    return numbers("factor", value, at_least=0.05, at_most=0.6, cause="nut factors run from about 0.1 to 0.3")
