using Broodtide.Science.Development.Females;
using Broodtide.Units;

namespace Broodtide.Science.Tests.Females;

public class RestBeliefTests
{
    private static readonly Interval Supposed = Interval.FromPoints(1.2, 6, 30);

    [Fact]
    public void Without_a_rest_seen_it_tells_what_was_supposed()
    {
        var next = RestBelief.From(Supposed, []).Next();

        Assert.Equal(6, next.Middle, 0.1);
        Assert.Equal(1.2, next.Low, 0.25);
        Assert.Equal(30, next.High, 6.0);
    }

    [Fact]
    public void Rests_of_nine_days_move_it_to_nine_days_and_narrow_it()
    {
        var before = RestBelief.From(Supposed, []).Next();
        var after = RestBelief.From(
            Supposed,
            [new(8, 10), new(8.5, 9.5), new(8, 11), new(7, 10), new(8, 9.5)]
        );

        Assert.Equal(5, after.LearnedFrom);
        Assert.Equal(9, after.Next().Middle, 0.6);
        Assert.True(after.Next().Width < before.Width / 2);
    }

    [Fact]
    public void The_belief_is_honest_over_invented_females()
    {
        // Females drawn from the supposition itself: nine in ten of their next rests lie between the points told.
        var random = new Random(7);
        double Normal()
        {
            var (u, v) = (1 - random.NextDouble(), random.NextDouble());
            return Math.Sqrt(-2 * Math.Log(u)) * Math.Cos(2 * Math.PI * v);
        }

        var part = Math.Log(30 / 1.2) / (2 * Interval.StandardNormal95) / Math.Sqrt(2);
        var (inside, all) = (0, 400);
        for (var i = 0; i < all; i++)
        {
            var middle = Math.Log(6) + (part * Normal());
            double Rest() => Math.Exp(middle + (part * Normal()));
            var seen = Enumerable
                .Range(0, 3)
                .Select(_ =>
                {
                    var rest = Rest();
                    return new SeenRest(
                        Math.Max(0, rest - (2 * random.NextDouble())),
                        rest + (2 * random.NextDouble())
                    );
                })
                .ToList();
            inside += RestBelief.From(Supposed, seen).Next().Contains(Rest()) ? 1 : 0;
        }

        Assert.InRange(inside / (double)all, 0.86, 0.94);
    }

    [Fact]
    public void Seen_without_eggs_later_it_lies_later()
    {
        var belief = RestBelief.From(Supposed, []);
        var later = belief.Next(20);

        Assert.True(later.Low >= 20);
        Assert.True(later.Middle > belief.Next().Middle);
        Assert.Equal(
            0.5,
            (belief.By(later.Middle).Value - belief.By(20).Value) / belief.By(20).Opposite,
            1e-6
        );
    }

    [Fact]
    public void A_rest_that_cannot_be_teaches_nothing()
    {
        var belief = RestBelief.From(Supposed, [new(-5, -2), new(9, 4), new(5000, 6000)]);

        Assert.Equal(0, belief.LearnedFrom);
        Assert.Throws<ArgumentOutOfRangeException>(() => RestBelief.From(Interval.FromPoints(0, 1, 2), []));
        Assert.Throws<ArgumentOutOfRangeException>(() => belief.By(double.NaN));
    }
}
