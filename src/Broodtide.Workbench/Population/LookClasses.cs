using Broodtide.Domain.Larvae;
using Broodtide.Science.Estimation.Larvae;

namespace Broodtide.Workbench.Population;

/// <summary>
/// Looks by keeper and way of looking: each class has a chance to see a larva that the run's better counts teach.
/// </summary>
internal sealed class LookClasses
{
    // Unknowns there is room for; further keepers share the class of their way of looking.
    private const int Most = 6;
    private const double GlanceScatter = 3;
    private const double BeamScatter = 8;
    private const double PhotoScatter = 30;

    private readonly List<(string Keeper, string Way)> _classes = [];
    private readonly List<ShareBelief> _beliefs = [];

    public IReadOnlyList<ShareBelief> Beliefs => _beliefs;

    public LookEvidence Evidence(string keeper, CountMade count, int seen)
    {
        var way = Way(count);
        var number = _classes.IndexOf((keeper, way));
        if (number < 0)
        {
            number = _classes.FindIndex(other => other.Way == way);
            if (number < 0 || _classes.Count < Most - 2)
            {
                number = _classes.Count < Most ? Begin(keeper, count, way) : 0;
            }
        }

        return new(
            seen,
            number,
            count.Method switch
            {
                CountMethod.Beam => BeamScatter,
                CountMethod.Photo => PhotoScatter,
                _ => GlanceScatter,
            },
            FadesWithLight: true
        );
    }

    private int Begin(string keeper, CountMade count, string way)
    {
        _classes.Add((keeper, way));
        _beliefs.Add(
            LarvalBeliefs.Look(
                count.Method switch
                {
                    CountMethod.Photo => SeenByLook.Photo,
                    CountMethod.Beam => count.InDark == true ? SeenByLook.BeamInDark : SeenByLook.BeamInLight,
                    _ => SeenByLook.Glance,
                }
            )
        );
        return _classes.Count - 1;
    }

    private static string Way(CountMade count) =>
        count.Method switch
        {
            CountMethod.Photo => "photo",
            CountMethod.Beam => count.InDark == true ? "dark" : "light",
            _ => "glance",
        };
}
