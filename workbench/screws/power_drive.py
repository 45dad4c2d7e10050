"""Driving a power screw: travel speed, force at the crank, power, heat, and how long it may run.

Speeds in mm/s and turns a minute, forces in N, torques in N mm, power and heat in W. `thread` is a Profile.
Numbers or arrays. Mechanics; no source, but for the heat that leaves a face (see `warming_k`).
"""

import math

from workbench.refusals import numbers, refuse
from workbench.threads.profile import Profile


def _lead(thread):
    if not isinstance(thread, Profile):
        refuse("thread", thread, "must be a Profile", "as from profile('trapezoidal', 20, 4)")
    return thread.lead_mm


def travel_speed_mm_s(turns_per_min, thread):
    """Speed of the nut: n L / 60; negative = back.

    >>> from workbench.threads.profile import profile
    >>> travel_speed_mm_s(90, profile("trapezoidal", 24, 5, starts=2))
    15.0
    """
    return numbers("turns_per_min", turns_per_min) * _lead(thread) / 60


def turns_per_min_for(speed_mm_s, thread):
    """Turns a minute for a speed of the nut: 60 v / L.

    >>> from workbench.threads.profile import profile
    >>> turns_per_min_for(15, profile("trapezoidal", 24, 5, starts=2))
    90.0
    """
    return 60 * numbers("speed_mm_s", speed_mm_s) / _lead(thread)


def sliding_speed_m_min(turns_per_min, thread):
    """Speed of flank on flank, which wears and heats: n sqrt((pi d2)^2 + L^2) / 1000.

    >>> from workbench.threads.profile import profile
    >>> round(sliding_speed_m_min(90, profile("trapezoidal", 24, 5, starts=2)), 2)
    6.15
    """
    lead = _lead(thread)
    way = ((math.pi * thread.pitch_diameter_mm) ** 2 + lead**2) ** 0.5
    return numbers("turns_per_min", turns_per_min, at_least=0) * way / 1000


def hand_force_n(torque_nmm, radius_mm, hands=1):
    """Pull at a crank or a hand wheel: T / r, shared by the hands; r from axis to grip.

    >>> hand_force_n(25000, 250)
    100.0
    """
    radius = numbers("radius_mm", radius_mm, above=0, cause="give it in mm, from axis to grip")
    return numbers("torque_nmm", torque_nmm) / radius / numbers("hands", hands, at_least=1, at_most=2)


def radius_for_mm(torque_nmm, hand_n, hands=1):
    """Radius at which a pull of so much on each grip turns the screw: T / (F x hands).

    >>> radius_for_mm(25000, 100)
    250.0
    """
    pull = numbers("hand_n", hand_n, above=0) * numbers("hands", hands, at_least=1, at_most=2)
    return numbers("torque_nmm", torque_nmm, above=0) / pull


def power_w(torque_nmm, turns_per_min):
    """Power that turns the screw: T x 2 pi n / 60, in W.

    >>> round(power_w(83000, 240))
    2086
    """
    return numbers("torque_nmm", torque_nmm) / 1000 * 2 * math.pi * numbers("turns_per_min", turns_per_min) / 60


def heat_w(torque_nmm, turns_per_min, efficiency):
    """Heat made in thread and collar: power x (1 - efficiency). efficiency: 0 to 1.

    >>> round(heat_w(83000, 240, 0.25))
    1565
    """
    lost = 1 - numbers("efficiency", efficiency, at_least=0, at_most=1, cause="give a share, not percent")
    return power_w(torque_nmm, turns_per_min) * lost


def duty(run_s, rest_s):
    """Share of the time that the screw runs: run / (run + rest).

    >>> duty(30, 90)
    0.25
    """
    run = numbers("run_s", run_s, above=0)
    return run / (run + numbers("rest_s", rest_s, at_least=0))


def warming_k(mean_heat_w, face_m2, leaves_w_per_m2k=12.0):
    """How much warmer than the air the nut becomes in the long run: heat / (face x what leaves it).

    mean_heat_w: heat x duty; face_m2: bare face of the nut and its housing; leaves_w_per_m2k: 10 to 15 in still
    air (common practice, no source).

    >>> round(warming_k(12, 0.05), 1)
    20.0
    """
    face = numbers("face_m2", face_m2, above=0, cause="is it in mm2? give m2")
    return numbers("mean_heat_w", mean_heat_w, at_least=0) / face / numbers("leaves_w_per_m2k", leaves_w_per_m2k,
                                                                             above=0)  # fmt: skip


def most_duty(running_heat_w, allowed_k, face_m2, leaves_w_per_m2k=12.0):
    """Largest share of the time that the screw may run without becoming warmer than allowed; 1 at most.

    >>> round(most_duty(48, 20, 0.05), 2)
    0.25
    """
    whole_time = warming_k(numbers("running_heat_w", running_heat_w, above=0), face_m2, leaves_w_per_m2k)
    share = numbers("allowed_k", allowed_k, above=0) / whole_time
    return (share + 1 - abs(share - 1)) / 2  # the smaller of share and 1, for a number and an array alike
