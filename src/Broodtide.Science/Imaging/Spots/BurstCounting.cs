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
    public IEnumerable<(int Parts, Action<int> Part)> Stages()
    {
        yield return (frames.Count, Look);
        Strange = Enumerable
            .Range(0, frames.Count)
            .Where(at =>
                Alignment.Correlated(_calm[Middle].Light, _calm[at].Light) < Alignment.LeastCorrelation
            )
            .Cast<int?>()
            .FirstOrDefault();
        White = PhotoSpots.ShareWhite(frames[Middle]);
        if (Strange is not null)
        {
            yield break;
        }

        yield return (frames.Count, Lay);
        yield return (1, _ => Tell());
        yield return (
            frames.Count,
            at => Found[at] = MovingThings.In(_laid[at], _raised, Looked.Shape, _clearness!)
        );
    }

    private void Look(int at)
    {
        _looked[at] = LookedAt.From(frames[at], shape);
        _calm[at] = Alignment.Calm(_looked[at].Grid, _looked[at].Shape);
    }

    private void Tell()
    {
        (var still, _raised) = Ground.Of(_laid, Looked.Shape);
        _clearness = new(still, Looked.Shape);
    }

    // Laid over the middle frame and made as bright as it.
    private void Lay(int at)
    {
        var (here, middle) = (_looked[at].Grid, _looked[Middle].Grid);
        Alignments[at] =
            at == Middle
                ? new(AffineMap.Identity, 1, new(0, 0, 1))
                : Alignment.Of(_calm[Middle].Grid, _calm[at].Grid, _calm[at].Shape);
        _laid[at] = here;
        if (at != Middle)
        {
            _laid[at] = new float[here.Length];
            Resampling.Cubic(here, Looked.Shape, Alignments[at].Map, Looked.Shape, _laid[at]);
        }

        var brighter = (float)(Lanes.Sum(middle) / Math.Max(1e-6, Lanes.Sum(_laid[at])));
        Lanes.Scale(_laid[at], brighter, _laid[at]);
    }
}
