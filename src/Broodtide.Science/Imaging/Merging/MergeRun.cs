using Broodtide.Science.Imaging.Registration;
using Broodtide.Units;

namespace Broodtide.Science.Imaging.Merging;

/// <summary>One merge under way.</summary>
internal sealed class MergeRun
{
    // What share of the work each part is, about; measured on frames of twelve megapixels.
    private const double LayingPart = 0.65;
    private const double ChoosingPart = 0.05;
    private const double MergingPart = 0.27;
    private const double CheckingPart = 1 - LayingPart - ChoosingPart - MergingPart;

    private readonly FocusFrames _stack;
    private readonly GridShape _shape;
    private readonly CellGrid _focus;
    private readonly CellGrid _light;
    private readonly CellGrid _blocks;
    private readonly int _middle;
    private readonly SortedList<int, LaidFrame> _laid = [];
    private readonly Registered?[] _tried;

    public MergeRun(FocusFrames stack)
    {
        _stack = stack;
        _shape = stack.Shapes[0];
        _focus = new(_shape, FocusCells.Side);
        _light = new(_shape, LightCells.Side);
        _blocks = new(_shape, Blocks.Side);
        _middle = stack.Shapes.Count / 2;
        _tried = new Registered?[stack.Shapes.Count];
    }

    public IEnumerable<MergeStep> Steps()
    {
        foreach (var step in Laying())
        {
            yield return step;
        }

        if (_laid.Count < FocusMerge.FewestFrames)
        {
            yield return new(MergeWork.Laying, -1, 1, Parsed<Merged>.No(NothingInCommon()));
            yield break;
        }

        Equalising.Set([.. _laid.Values], _light);
        var sharpness = new List<float[]>();
        foreach (var frame in _laid.Values)
        {
            sharpness.Add(Weighing.About(frame, _focus));
            yield return new(
                MergeWork.Choosing,
                frame.Index,
                LayingPart + (ChoosingPart * sharpness.Count / _laid.Count / 2)
            );
        }

        var leaning = new Leaning([.. _laid.Values], sharpness, _focus, _blocks);
        foreach (var _ in leaning.Settle())
        {
            yield return new(MergeWork.Choosing, -1, LayingPart + (ChoosingPart / 2));
        }

        var weights = leaning.Weights;
        var fusing = new Fusing(_shape, _focus);
        foreach (var step in Merging(fusing, weights))
        {
            yield return step;
        }

        var colours = new byte[_shape.Count * 4];
        for (var top = 0; top < _shape.Down; top += Fusing.Band)
        {
            fusing.Write(top, colours);
        }

        yield return new(MergeWork.Checking, -1, 1 - CheckingPart);
        var check = new MergeCheck([.. _laid.Values], _focus, _light, _blocks);
        foreach (var done in check.Look(colours))
        {
            yield return new(MergeWork.Checking, -1, 1 - ((1 - done) * CheckingPart));
        }

        yield return new(MergeWork.Checking, -1, 1, Parsed<Merged>.Of(Answer(check, colours, weights)));
    }

    private IEnumerable<MergeStep> Laying()
    {
        var reference = default(ReferenceFrame);
        // One for all: only one frame is worked on at a time.
        var grey = new float[_shape.Count];
        var order = Enumerable
            .Range(0, _middle + 1)
            .Select(i => _middle - i)
            .Concat(Enumerable.Range(_middle + 1, _tried.Length - _middle - 1))
            .ToList();
        for (var i = 0; i < order.Count; i++)
        {
            var done = LayingPart * i / order.Count;
            var index = order[i];
            var colours = _stack.Open(index);
            Channels.Grey(colours.Span, grey);
            yield return new(MergeWork.Laying, index, done);
            if (reference is null)
            {
                reference = ReferenceFrame.Of(grey, _shape, Movement.Similarity);
                _tried[index] = new(AffineMap.Identity, 1, 0);
            }
            else
            {
                foreach (var step in reference.Steps(grey, Start(index)))
                {
                    _tried[index] = step ?? _tried[index];
                    yield return new(MergeWork.Laying, index, done);
                }
            }

            if (!IsSameScene(_tried[index]!))
            {
                continue;
            }

            var frame = new LaidFrame(index, _tried[index]!, _focus, _light, _blocks);
            foreach (var _ in frame.Measure(grey, colours))
            {
                yield return new(MergeWork.Laying, index, done);
            }

            _laid.Add(index, frame);
        }
    }

    // Where the neighbour lies that is laid already: size changes little from frame to frame.
    private AffineMap? Start(int index) =>
        _laid.Count == 0 ? null : _laid.Values.MinBy(frame => Math.Abs(frame.Index - index))!.Map;

    // Focusing changes the size by a few per cent, a hand moves by less than a quarter of the picture.
    private bool IsSameScene(Registered found) =>
        ReferenceFrame.Judged(found).Succeeded
        && found.Map.Scale is > 0.8 and < 1.25
        && Math.Abs(found.Map.TurnedDegrees) < 15
        && found.Map.Apart(AffineMap.Identity, _shape) < 0.4 * Math.Max(_shape.Across, _shape.Down);

    private Remark NothingInCommon() =>
        new("merge-frames-differ-in-scene", new Argument("frame", _middle + 1));

    private IEnumerable<MergeStep> Merging(Fusing fusing, IReadOnlyList<float[]> weights)
    {
        for (var i = 0; i < _laid.Count; i++)
        {
            var frame = _laid.GetValueAtIndex(i);
            var colours = _stack.Open(frame.Index);
            for (var top = 0; top < _shape.Down; top += Fusing.Band)
            {
                fusing.Add(frame, colours.Span, weights[i], top);
                var part = (i + ((double)top / _shape.Down)) / _laid.Count;
                yield return new(
                    MergeWork.Merging,
                    frame.Index,
                    LayingPart + ChoosingPart + (MergingPart * part)
                );
            }
        }
    }

    private Merged Answer(MergeCheck check, byte[] colours, IReadOnlyList<float[]> weights)
    {
        var sharpest = check.Sharpest;
        var isMerged = check.Sharpness > check.SharpnessOf(sharpest);
        var remarks = new List<Remark>();
        for (var i = 0; i < _tried.Length; i++)
        {
            if (!_laid.ContainsKey(i))
            {
                remarks.Add(
                    new(
                        "merge-frame-left-out",
                        new Argument("frame", i + 1),
                        new Argument("correlation", Math.Round(_tried[i]!.Correlation, 2))
                    )
                );
            }
        }

        if (!isMerged)
        {
            remarks.Add(new("merge-returns-frame", new Argument("frame", sharpest.Index + 1)));
            _stack.Open(sharpest.Index).CopyTo(colours);
            for (var at = 3; at < colours.Length; at += 4)
            {
                colours[at] = byte.MaxValue;
            }
        }

        remarks.AddRange(check.Remarks(isMerged));
        var frames = Enumerable
            .Range(0, _tried.Length)
            .Select(i =>
            {
                var at = _laid.IndexOfKey(i);
                var share = isMerged
                    ? at < 0
                        ? 0
                        : Lanes.Sum(weights[at]) / _focus.Shape.Count
                    : i == sharpest.Index
                        ? 1
                        : 0;
                return new MergedFrame(
                    _tried[i]!.Map,
                    _tried[i]!.Correlation,
                    at >= 0,
                    share,
                    at < 0 ? 0 : check.SharpnessOf(_laid[i])
                );
            })
            .ToList();
        return new(
            _shape,
            colours,
            isMerged,
            _middle,
            sharpest.Index,
            isMerged ? check.Sharpness : check.SharpnessOf(sharpest),
            frames,
            isMerged ? check.ShareOfHalo : 0,
            check.ShareMoved,
            remarks
        );
    }
}
