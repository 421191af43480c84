using Broodtide.Science.Estimation.Larvae;
using CsCheck;

namespace Broodtide.Science.Tests.Estimation.Larvae;

/// <summary>Past the stage where the attraction to light fades, a look by light cannot lower the estimate.</summary>
public sealed class FadedLooksTests
{
    [Fact]
    public void A_late_beam_or_glance_never_lowers_any_point_of_that_day() =>
        Gen.Select(
                Scenes.Plausible,
                Gen.Double[0, 1],
                Gen.OneOf(Gen.Const(0), Gen.Int[0, 60], Gen.Int[0, 2000]),
                Gen.Int[0, 1]
            )
            .Sample(
                (run, part, seen, kind) =>
                {
                    var day = 32 + (part * 13);
                    var look = new Counted(
                        day,
                        999,
                        3,
                        new LookEvidence(seen, kind, kind == 0 ? 8 : 3, true)
                    );
                    var before = Scenes.Alive(run, day);
                    var after = Scenes.Alive(run with { Events = [.. run.Events, look] }, day);

                    // A look at some larvae lays the grid of totals and the suppositions anew. The most that a point was
                    // seen to fall is 1.5 %, an upper end both times.
                    Assert.True(
                        NotBelow(before.Low, after.Low)
                            && NotBelow(before.Middle, after.Middle)
                            && NotBelow(before.High, after.High),
                        $"{before} became {after} by {seen} on day {day}"
                    );
                },
                iter: 120,
                threads: 1
            );

    private static bool NotBelow(double before, double after) => after >= before - (0.02 * before);

    [Fact]
    public void Several_late_looks_at_nothing_lower_nothing()
    {
        var run = Scenes.Run(
            40,
            new Arrived(0, 0, 0, 400, 0.4),
            Scenes.Aliquots(10, 1, 0.02, 5, 6, 4),
            new Staged(36, 2, 1, [0, 0, 0, 0, 0, 1, 3, 4, 2, 0])
        );
        var before = Scenes.Alive(run, 40);
        Counted[] looks =
        [
            .. Enumerable
                .Range(0, 6)
                .Select(i => new Counted(34 + i, 10 + i, 1, new LookEvidence(0, i % 2, 3, true))),
        ];
        var after = Scenes.Alive(run with { Events = [.. run.Events, .. looks] }, 40);

        Assert.True(after.Low >= before.Low && after.Middle >= before.Middle && after.High >= before.High);
    }

    [Fact]
    public void A_late_look_that_sees_many_raises()
    {
        var run = Scenes.Run(40, new Arrived(0, 0, 0, 400, 0.4), Scenes.Aliquots(10, 1, 0.02, 5, 6, 4));
        var look = new Counted(38, 2, 1, new LookEvidence(250, 0, 8, true));

        Assert.True(
            Scenes.Alive(run with { Events = [.. run.Events, look] }, 38).Low > Scenes.Alive(run, 38).Low + 20
        );
    }

    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    public void An_early_look_that_sees_few_lowers(int kind)
    {
        var run = Scenes.Run(12, new Arrived(0, 0, 0, 400, 0.6));
        var look = new Counted(8, 2, 1, new LookEvidence(2, kind, 8, true));
        var before = Scenes.Alive(run, 8);
        var after = Scenes.Alive(run with { Events = [.. run.Events, look] }, 8);

        Assert.True(after.Middle < 0.7 * before.Middle, $"{before} became {after}");
    }
}
