"""What can be wrong with the way through the vessels: one file a finding, each with its manual."""

from procsheet.graph.checks import (batch_weight as batch_weight_page, content_lost as content_lost_page, empty_vessel as empty_vessel_page, hold_back, never_added as never_added_page,
                                    steps_in_a_circle, used_twice as used_twice_page, which_row as which_row_page)

empty_vessel = empty_vessel_page.finding
into_itself = empty_vessel_page.into_itself
content_lost = content_lost_page.finding
holds = content_lost_page.holds
never_added = never_added_page.of_row
phase_never_added = never_added_page.of_phase
left_over = never_added_page.left_over
used_twice = used_twice_page.finding
more_than_left = used_twice_page.more_than_left
in_pack = used_twice_page.in_pack
which_row = which_row_page.finding
no_hold_back = hold_back.missing
hold_back_unused = hold_back.unused
batch_weight = batch_weight_page.finding
after_make_up = batch_weight_page.after_make_up

PAGES = (batch_weight_page, empty_vessel_page, content_lost_page, never_added_page, used_twice_page, which_row_page, hold_back, steps_in_a_circle)
