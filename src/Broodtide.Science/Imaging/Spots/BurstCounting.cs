using Broodtide.Science.Imaging.Registration;

namespace Broodtide.Science.Imaging.Spots;

/// <summary>
/// A burst on its way to a count, in stages; the parts of a stage do not touch each other and may run side by side.
/// </summary>
internal sealed class BurstCounting(IReadOnlyList<float[]> frames, GridShape shape)
{
    private readonly LookedAt[] _looked = new LookedAt[frames.Count];
    private readonly (float[] Grid, float[] Light, GridShape Shape)[] _calm = new (
        float[],
        float[],
        GridShape
    )[frames.Count];
    private readonly float[][] _laid = new float[frames.Count][];
    private float[] _raised = [];
    private Clearness? _clearness;

    public int Middle => frames.Count / 2;

    public LookedAt Looked => _looked[Middle];

    public Alignment[] Alignments { get; } = new Alignment[frames.Count];

    public MovingThings[] Found { get; } = new MovingThings[frames.Count];

    /// <summary>Share of white pixels in the middle frame; after the first stage.</summary>
    public double White { get; private set; }

    /// <summary>The first frame that shows something else, or none; after the first stage.</summary>
    public int? Strange { get; private set; }

    /// <summary>How many parts a stage has, and what is to be done for each. Ends early where a frame is strange.</summary>
    public IEnumerable<(int Parts, Func<int, IEnumerable<Pause>> Part)> Stages()
    {
        yield return (frames.Count, Look);
        Strange = Enumerable
            .Range(0, frames.Count)
            .Where(at =>
                Alignment.Correlated(_calm[Middle].Light, _calm[at].Light) < Alignment.LeastCorrelation
            )
            .Cast<int?>()
            .FirstOrDefault();
        White = PhotoFitness.ShareWhite(frames[Middle]);
        if (Strange is not null)
        {
            yield break;
        }

        yield return (frames.Count, Lay);
        yield return (1, _ => Tell());
        yield return (frames.Count, Find);
    }

    private IEnumerable<Pause> Look(int at)
    {
        foreach (var looked in LookedAt.Steps(frames[at], shape))
        {
            // Nothing but at the last step; read after it only.
            _looked[at] = looked!;
            yield return default;
        }

        foreach (var calm in Alignment.Calm(_looked[at].Grid, _looked[at].Shape))
        {
            _calm[at] = calm ?? _calm[at];
            yield return default;
        }
    }

    private IEnumerable<Pause> Tell()
    {
        var (still, standing) = (new float[Looked.Shape.Count], new float[Looked.Shape.Count]);
        _raised = new float[Looked.Shape.Count];
        _clearness = new(standing, Looked.Shape);
        return Ground
            .Of(_laid, Looked.Shape, still, _raised)
            .Concat(Clearness.Standing(still, Looked.Shape, standing));
    }

    private IEnumerable<Pause> Find(int at)
    {
        foreach (var found in MovingThings.Steps(_laid[at], _raised, Looked.Shape, _clearness!))
        {
            // As above.
            Found[at] = found!;
            yield return default;
        }
    }

    // Laid over the middle frame and made as bright as it.
    private IEnumerable<Pause> Lay(int at)
    {
        var (here, middle) = (_looked[at].Grid, _looked[Middle].Grid);
        Alignments[at] = new(AffineMap.Identity, 1, new(0, 0, 1));
        _laid[at] = here;
        if (at != Middle)
        {
            foreach (var found in Alignment.Steps(_calm[Middle].Grid, _calm[at].Grid, _calm[at].Shape))
            {
                Alignments[at] = found ?? Alignments[at];
                yield return default;
            }

            _laid[at] = new float[here.Length];
            foreach (var pause in Resampling.CubicSteps(here, Looked.Shape, Alignments[at].Map, _laid[at]))
            {
                yield return pause;
            }
        }

        var brighter = (float)(Lanes.Sum(middle) / Math.Max(1e-6, Lanes.Sum(_laid[at])));
        Lanes.Scale(_laid[at], brighter, _laid[at]);
        yield return default;
    }
}
