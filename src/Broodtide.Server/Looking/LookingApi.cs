using System.Buffers.Binary;
using Broodtide.Photos;
using Broodtide.Science.Imaging;
using Broodtide.Units;
using Broodtide.Workbench.Looking;
using Broodtide.Workbench.Photos;
using Microsoft.AspNetCore.Http.Metadata;

namespace Broodtide.Server.Looking;

/// <summary>
/// Counts in pictures for a phone, at full size. Nothing of a picture is kept: it is read, counted in and forgotten. One
/// count at a time, so that a small machine goes on serving.
/// </summary>
internal static class LookingApi
{
    // Brightness takes four bytes a pixel: ten frames of twelve megapixels are half a gigabyte.
    private const long MostPixels = 130_000_000;
    private static readonly TimeSpan Longest = TimeSpan.FromMinutes(2);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(20);

    public static void MapLooking(this IEndpointRouteBuilder app)
    {
        var desk = new SemaphoreSlim(1);
        app.MapPost(
                "/" + PicturesAnswer.Path,
                (HttpContext context, CancellationToken cancel) => CountAsync(desk, context, cancel)
            )
            .WithMetadata(new RequestSizeLimit(PicturesAnswer.MostBytes));
    }

    private static async Task<IResult> CountAsync(
        SemaphoreSlim desk,
        HttpContext context,
        CancellationToken cancel
    )
    {
        if (context.Request.ContentLength > PicturesAnswer.MostBytes)
        {
            return Results.StatusCode(StatusCodes.Status413PayloadTooLarge);
        }

        if (!await desk.WaitAsync(Patience, cancel))
        {
            context.Response.Headers.RetryAfter = "20";
            return Results.StatusCode(StatusCodes.Status503ServiceUnavailable);
        }

        using var longest = CancellationTokenSource.CreateLinkedTokenSource(cancel);
        longest.CancelAfter(Longest);
        try
        {
            var (frames, shapes, refused) = await ReadAsync(context.Request.Body, longest.Token);
            var count = refused is not null
                ? Parsed<PicturesCounted>.No(refused)
                : await Task.Run(() => Count(frames, shapes, longest.Token), longest.Token);
            return Results.Bytes(PicturesAnswer.Write(count), "application/json");
        }
        catch (EndOfStreamException)
        {
            return Results.StatusCode(StatusCodes.Status400BadRequest);
        }
        catch (OperationCanceledException) when (!cancel.IsCancellationRequested)
        {
            return Results.StatusCode(StatusCodes.Status503ServiceUnavailable);
        }
        finally
        {
            desk.Release();
        }
    }

    private static Parsed<PicturesCounted> Count(
        List<float[]> frames,
        List<GridShape> shapes,
        CancellationToken cancel
    )
    {
        Parsed<PicturesCounted>? last = null;
        foreach (var step in PicturesCounted.Steps(frames, shapes))
        {
            cancel.ThrowIfCancellationRequested();
            last = step;
        }

        return last!;
    }

    // Each picture is its length in four bytes, the largest first, and then itself. One is open at a time.
    private static async Task<(List<float[]>, List<GridShape>, Remark?)> ReadAsync(
        Stream body,
        CancellationToken cancel
    )
    {
        var (frames, shapes) = (new List<float[]>(), new List<GridShape>());
        var pixels = 0L;
        var head = new byte[4];
        while (await body.ReadAtLeastAsync(head, 4, throwOnEndOfStream: false, cancel) is var read and > 0)
        {
            if (read < 4)
            {
                throw new EndOfStreamException();
            }

            var length = BinaryPrimitives.ReadUInt32BigEndian(head);
            if (length > PhotoLimits.LargestFileBytes)
            {
                return (frames, shapes, PhotoIntake.TooLarge(length));
            }

            var file = new byte[length];
            await body.ReadExactlyAsync(file, cancel);
            var (picture, reason) = Open(file);
            if (picture is null)
            {
                return (frames, shapes, reason);
            }

            pixels += picture.Shape.Count;
            if (frames.Count == Science.Imaging.Spots.BurstSpots.MostFrames || pixels > MostPixels)
            {
                return (frames, shapes, new Remark("pictures-too-many", new Argument("most", frames.Count)));
            }

            frames.Add(picture.ToGrey());
            shapes.Add(picture.Shape);
        }

        return (frames, shapes, null);
    }

    // Looked at as a photo that comes to be kept: its claims are checked before anything is decoded.
    private static (Picture? Picture, Remark? Reason) Open(byte[] file)
    {
        if (PhotoIntake.Look(file) is { Succeeded: false } look)
        {
            return (null, look.Reason);
        }

        var picture = PictureFile.Decode(file);
        return picture.Succeeded ? (picture.Value, null) : (null, picture.Reason);
    }

    private sealed record RequestSizeLimit(long? MaxRequestBodySize) : IRequestSizeLimitMetadata;
}
