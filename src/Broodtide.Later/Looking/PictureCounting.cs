using System.Buffers.Binary;
using System.Net.Http.Headers;
using Broodtide.Domain.Larvae;
using Broodtide.Phone.Browser;
using Broodtide.Phone.People;
using Broodtide.Science.Imaging;
using Broodtide.Units;
using Broodtide.Workbench.Looking;

namespace Broodtide.Phone.Looking;

/// <summary>A count with what the journal keeps of it; its marks are in pixels of the pictures as they were taken.</summary>
public sealed record CountedPictures(PicturesCounted Count, ProgramCount Program);

/// <summary>Why a picture cannot be counted in, and which.</summary>
public sealed record PictureRefused(Remark Reason, string? File);

/// <summary>How far a count has come.</summary>
public enum CountingStep
{
    /// <summary>A picture is opened.</summary>
    Opening,

    /// <summary>It is counted.</summary>
    Counting,
}

/// <summary>
/// Counts in chosen pictures: on the phone itself, made smaller and in slices so that the page stays alive; and by the
/// server, as they were taken, where it can be reached.
/// </summary>
internal sealed class PictureCounting(Func<Slicer> slicer, HttpClient http, SignedIn who)
{
    // The counter halves a picture until its longer side is at most 1,600 pixels; halved as often here, once more where
    // that is still large for a phone.
    private const int LongestSide = 1_200;

    // What is sent is held in memory twice.
    private const long MostSentBytes = 60_000_000;

    /// <summary>The pictures that were read last, as the journal names them.</summary>
    public IReadOnlyList<PictureSeen> Pictures { get; private set; } = [];

    /// <summary>Why there was no count, with the name of the file.</summary>
    public PictureRefused? Refused { get; private set; }

    /// <summary>Counts here; none if refused.</summary>
    public async Task<CountedPictures?> CountHereAsync(
        ChosenPictures chosen,
        Action<CountingStep, int> told,
        CancellationToken cancel
    )
    {
        (Pictures, Refused) = ([], null);
        var seen = new List<PictureSeen>();
        var (greys, shapes) = (new List<float[]>(), new List<GridShape>());
        var reduced = 1.0;
        for (var at = 0; at < chosen.Count; at++)
        {
            told(CountingStep.Opening, at + 1);
            await Glue.Rest();
            cancel.ThrowIfCancellationRequested();
            var file = await chosen.FileAsync(at);
            if (!file.Succeeded)
            {
                return Refuse(file.Reason, chosen.NameOf(at));
            }

            var side = Math.Max(file.Value.Look.Across, file.Value.Look.Down);
            var decoded = await chosen.DecodeAsync(at, Reduced(side));
            if (!decoded.Succeeded)
            {
                return Refuse(decoded.Reason, chosen.NameOf(at));
            }

            var picture = decoded.Value;
            seen.Add(new(file.Value.Sha256, picture.Whole.Across, picture.Whole.Down));
            greys.Add(picture.ToGrey());
            shapes.Add(picture.Shape);
            reduced = picture.Reduced;
        }

        told(CountingStep.Counting, 0);
        var count = await slicer().Last(PicturesCounted.Steps(greys, shapes), cancel);
        if (count is not { Succeeded: true })
        {
            return Refuse(count?.Reason ?? new Remark("pictures-none"), null);
        }

        Pictures = seen;
        var whole = count.Value.Enlarged(reduced);
        return new(
            whole,
            PictureCounts.OfProgram(
                whole,
                CountedAt.Phone,
                shapes.Max(shape => Math.Max(shape.Across, shape.Down))
            )
        );
    }

    /// <summary>Has the server count; none where it cannot be reached, is busy or refuses.</summary>
    public async Task<CountedPictures?> CountThereAsync(ChosenPictures chosen, CancellationToken cancel)
    {
        if (!who.MayShare || Pictures.Count == 0)
        {
            return null;
        }

        using var body = new MemoryStream();
        var head = new byte[4];
        for (var at = 0; at < chosen.Count; at++)
        {
            // As it would be kept: the place where it was taken goes nowhere.
            var file = await chosen.FileAsync(at);
            if (!file.Succeeded || body.Length + file.Value.Bytes.Length > MostSentBytes)
            {
                return null;
            }

            BinaryPrimitives.WriteInt32BigEndian(head, file.Value.Bytes.Length);
            body.Write(head);
            body.Write(file.Value.Bytes);
        }

        try
        {
            using var content = new ByteArrayContent(body.GetBuffer(), 0, (int)body.Length);
            content.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
            using var answer = await http.PostAsync(PicturesAnswer.Path, content, cancel);
            if (!answer.IsSuccessStatusCode)
            {
                return null;
            }

            var count = PicturesAnswer.Read(await answer.Content.ReadAsByteArrayAsync(cancel));
            return count is { Succeeded: true } && count.Value.Frames.Count == Pictures.Count
                ? new(
                    count.Value,
                    PictureCounts.OfProgram(
                        count.Value,
                        CountedAt.Server,
                        Pictures.Max(picture => Math.Max(picture.Across, picture.Down))
                    )
                )
                : null;
        }
        catch (Exception away) when (away is HttpRequestException or OperationCanceledException)
        {
            return null;
        }
    }

    /// <summary>How long the longer side is when it was halved often enough.</summary>
    internal static int Reduced(int side)
    {
        while (side > LongestSide)
        {
            side = (side + 1) / 2;
        }

        return side;
    }

    private CountedPictures? Refuse(Remark reason, string? file)
    {
        Refused = new(reason, file);
        return null;
    }
}
