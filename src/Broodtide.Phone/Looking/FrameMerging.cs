using Broodtide.Phone.Browser;
using Broodtide.Science.Imaging.Merging;
using Broodtide.Units;

namespace Broodtide.Phone.Looking;

/// <summary>How far a merge on the phone has come: the frame that is opened, or the share of all that is done.</summary>
public readonly record struct MergingStep(int Opening, double Done);

/// <summary>Merges chosen pictures on the phone itself: made smaller, and in slices so that the page stays alive.</summary>
internal sealed class FrameMerging(Func<Slicer> slicer)
{
    // So large that nine frames take a minute on a phone and not many.
    private const int LongestSide = 1_000;

    /// <summary>The name of the file that was refused, if it was a file.</summary>
    public string? File { get; private set; }

    /// <summary>The merged picture, or why there is none.</summary>
    public async Task<Parsed<Merged>> MergeAsync(
        ChosenPictures chosen,
        Action<MergingStep> told,
        CancellationToken cancel
    )
    {
        File = null;
        var frames = new List<DecodedPicture>();
        for (var at = 0; at < chosen.Count && at <= FocusMerge.MostFrames; at++)
        {
            told(new(at + 1, 0));
            await Glue.Rest();
            cancel.ThrowIfCancellationRequested();
            var file = await chosen.FileAsync(at);
            if (!file.Succeeded)
            {
                File = chosen.NameOf(at);
                return Parsed<Merged>.No(file.Reason);
            }

            var decoded = await chosen.DecodeAsync(at, LongestSide);
            if (!decoded.Succeeded)
            {
                File = chosen.NameOf(at);
                return Parsed<Merged>.No(decoded.Reason);
            }

            frames.Add(decoded.Value);
        }

        Parsed<Merged>? answer = null;
        var percent = -1;
        var steps = FocusMerge.Steps(
            new([.. frames.Select(frame => frame.Shape)], frame => frames[frame].Colours)
        );
        await foreach (var step in slicer().Slice(steps, cancel))
        {
            answer = step.Answer;
            if ((int)(100 * step.Done) != percent)
            {
                percent = (int)(100 * step.Done);
                told(new(0, step.Done));
            }
        }

        return answer!;
    }
}
