using Broodtide.Domain.Larvae;
using Broodtide.Science.Counting;
using Broodtide.Science.Estimation.Larvae;

namespace Broodtide.Workbench.Population;

/// <summary>
/// Looks by keeper and way of looking: each class has a chance to see a larva that the run's better counts teach, and
/// before them the same keeper's double counts of other vessels.
/// </summary>
/// <param name="doubles">The double counts of the house.</param>
/// <param name="calibrations">What a container and lamp teach of counts in pictures, by the keeper's name for them.</param>
/// <param name="own">The population: its own double counts are weighed by its estimate.</param>
internal sealed class LookClasses(
    Func<DoubleCounts> doubles,
    Func<string, CountCalibration> calibrations,
    LarvalGroup own
)
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
        if (Calibrated(count) is { } calibrated)
        {
            return calibrated;
        }

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

        return new(seen, number, ScatterOf(count.Method), FadesWithLight: true);
    }

    /// <summary>Size of the negative binomial scatter of a look: assumptions of this project.</summary>
    public static double ScatterOf(CountMethod method) =>
        method switch
        {
            CountMethod.Beam => BeamScatter,
            CountMethod.Photo => PhotoScatter,
            _ => GlanceScatter,
        };

    /// <summary>The way of a look, in one word.</summary>
    public static string Way(CountMade count) =>
        count.Method switch
        {
            CountMethod.Photo when IsLookedOver(count) => "photo looked over",
            CountMethod.Photo => "photo",
            CountMethod.Beam => count.InDark == true ? "dark" : "light",
            _ => "glance",
        };

    /// <summary>Whether a person looked over the marks of a count in pictures.</summary>
    public static bool IsLookedOver(CountMade count) => count.Pictures?.OfPerson() is not null;

    // What the program counted by itself, where its set-up has a calibration. What a person changed is no longer what
    // the calibration is about.
    private LookEvidence? Calibrated(CountMade count)
    {
        if (
            count is not { Method: CountMethod.Photo, Pictures: { Setup: { } setup } pictures }
            || IsLookedOver(count)
            || count.Samples.Sum(sample => (long)sample.Seen) != pictures.Different()
            || CalibratedLook.From(calibrations(setup), pictures.Counts[0].Marked) is not { } look
        )
        {
            return null;
        }

        // No person's name is a colon.
        var name = (Keeper: ":", Way: setup.Trim().ToUpperInvariant());
        var number = _classes.IndexOf(name);
        if (number < 0)
        {
            if (_classes.Count >= Most)
            {
                return null;
            }

            number = _classes.Count;
            _classes.Add(name);
            _beliefs.Add(look.Chance);
        }

        // One chance for the whole class: where another count of the set-up has a slightly other one, so many were seen
        // as the class would have seen of its number.
        var seen = (int)Math.Round(look.Seen * _beliefs[number].Median / look.Chance.Median);
        return new(seen, number, look.Scatter, FadesWithLight: true);
    }

    private int Begin(string keeper, CountMade count, string way)
    {
        _classes.Add((keeper, way));
        var practice = LarvalBeliefs.Look(
            count.Method switch
            {
                CountMethod.Photo when IsLookedOver(count) => SeenByLook.PhotoLookedOver,
                CountMethod.Photo => SeenByLook.Photo,
                CountMethod.Beam => count.InDark == true ? SeenByLook.BeamInDark : SeenByLook.BeamInLight,
                _ => SeenByLook.Glance,
            }
        );
        _beliefs.Add(doubles().Belief(keeper, way, practice, own));
        return _classes.Count - 1;
    }
}
