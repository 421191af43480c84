using Broodtide.Phone.Browser;
using Broodtide.Science.Imaging.Merging;
using Broodtide.Units;

namespace Broodtide.Phone.Looking;

/// <summary>
/// How far a merge on the phone has come: the frame that is opened, or the share of all that is done; of a video how many
/// frames are looked at.
/// </summary>
public readonly record struct MergingStep(int Opening, double Done, int Of = 0);

/// <summary>Merges chosen pictures on the phone itself: made smaller, and in slices so that the page stays alive.</summary>
internal sealed class FrameMerging(Func<Slicer> slicer)
{
    // So large that nine frames take a minute on a phone and not many.
    private const int LongestSide = 1_000;

    // Of a video: how often it is looked through, how large, and how many frames are merged.
    private const double LooksPerSecond = 6;
    private const int MostLooks = 90;
    private const int LookSide = 320;
    private const int OfClip = 12;

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

        return await MergeAsync(frames, told, cancel);
    }

    /// <summary>
    /// Merges frames of a video: it is looked through at even times, made small, and of each stretch the sharpest frame is
    /// opened again and merged.
    /// </summary>
    public async Task<Parsed<Merged>> MergeAsync(
        ChosenClip clip,
        Action<MergingStep> told,
        CancellationToken cancel
    )
    {
        File = null;
        var looks = (int)Math.Clamp(Math.Ceiling(clip.Seconds * LooksPerSecond), 2, MostLooks);
        double At(int look) => (look + 0.5) * clip.Seconds / looks;
        var sharpness = new List<double>();
        for (var look = 0; look < looks; look++)
        {
            told(new(look + 1, 0, looks));
            await Glue.Rest();
            cancel.ThrowIfCancellationRequested();
            if (await clip.FrameAsync(At(look), LookSide) is not { } small)
            {
                return Parsed<Merged>.No("clip-not-shown");
            }

            sharpness.Add(ClipFrames.Sharpness(small.ToGrey(), small.Shape));
        }

        var frames = new List<DecodedPicture>();
        foreach (var look in ClipFrames.Chosen(sharpness, OfClip))
        {
            cancel.ThrowIfCancellationRequested();
            if (await clip.FrameAsync(At(look), LongestSide) is not { } frame)
            {
                return Parsed<Merged>.No("clip-not-shown");
            }

            frames.Add(frame);
            await Glue.Rest();
        }

        return await MergeAsync(frames, told, cancel);
    }

    private async Task<Parsed<Merged>> MergeAsync(
        List<DecodedPicture> frames,
        Action<MergingStep> told,
        CancellationToken cancel
    )
    {
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
