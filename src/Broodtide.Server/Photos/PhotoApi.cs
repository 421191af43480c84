using System.Text.Json;
using System.Text.Json.Serialization;
using Broodtide.Server.People;
using Broodtide.Server.Site;
using Broodtide.Units;
using Broodtide.Workbench.Photos;
using Broodtide.Workbench.Sharing;

namespace Broodtide.Server.Photos;

/// <summary>
/// Photos come by the hash of their bytes and go out the same way. What comes is checked again as on the phone: a store
/// that is not ours may send anything.
/// </summary>
internal static class PhotoApi
{
    // A phone asks of what waits in it; nobody holds so many at once.
    private const int MostAsked = 10_000;

    public static void MapPhotos(this IEndpointRouteBuilder app)
    {
        var photos = app.ServiceProvider.GetRequiredService<SharedPhotos>();
        var group = app.MapGroup(PhoneSite.ApiPath + "/photos");
        group.MapPost(
            "/lacking",
            async (HttpContext context, CancellationToken cancel) =>
            {
                if (Denied(context, Role.Reader) is { } denied)
                {
                    return denied;
                }

                var hashes = await HashesAsync(context.Request, cancel);
                return hashes is null
                    ? Refused(new Remark("photo-list-not-understood"))
                    : Results.Json([.. photos.Lacking(hashes)], PhotoJson.Default.ListString);
            }
        );
        group
            .MapPut(
                "/{hash}",
                (string hash, HttpContext context, CancellationToken cancel) =>
                    PutAsync(photos, hash, context, cancel)
            )
            .WithMetadata(new RequestSizeLimit(PhotoLimits.LargestFileBytes));
        group.MapMethods(
            "/{hash}",
            [HttpMethods.Get, HttpMethods.Head],
            (string hash, HttpContext context, CancellationToken cancel) =>
                GetAsync(photos, hash, context, cancel)
        );
    }

    /// <summary>Tells the photos that somebody may have written in the journal.</summary>
    public static void TellPhotosOfWriting(this WebApplication app)
    {
        var photos = app.Services.GetRequiredService<SharedPhotos>();
        app.Use(
            async (context, next) =>
            {
                var mayWrite =
                    HttpMethods.IsPost(context.Request.Method)
                    && context.Request.Path.StartsWithSegments(PhoneSite.ApiPath, StringComparison.Ordinal);
                if (mayWrite)
                {
                    await photos.JournalChangingAsync(context.RequestAborted);
                }

                await next(context);
                if (mayWrite)
                {
                    photos.JournalChanged();
                }
            }
        );
    }

    private static async Task<IResult> PutAsync(
        SharedPhotos photos,
        string hash,
        HttpContext context,
        CancellationToken cancel
    )
    {
        if (Denied(context, Role.Helper) is { } denied)
        {
            return denied;
        }

        if (!PhotoIntake.IsHash(hash))
        {
            return Refused(new Remark("photo-name-wrong"));
        }

        if (context.Request.ContentLength is not { } length)
        {
            return Results.StatusCode(StatusCodes.Status411LengthRequired);
        }

        if (length > PhotoLimits.LargestFileBytes)
        {
            return Results.StatusCode(StatusCodes.Status413PayloadTooLarge);
        }

        // Only what the journal speaks of: nobody fills the disk with other things, and what was erased stays away.
        if (!await photos.IsNamedAsync(hash, cancel))
        {
            return Refused(new Remark("photo-of-no-entry"), StatusCodes.Status409Conflict);
        }

        var bytes = new byte[length];
        try
        {
            await context.Request.Body.ReadExactlyAsync(bytes, cancel);
        }
        catch (EndOfStreamException)
        {
            return Refused(new Remark("photo-cut-off-underway"));
        }

        if (!string.Equals(PhotoIntake.HashOf(bytes), hash, StringComparison.Ordinal))
        {
            return Refused(new Remark("photo-not-the-one-named"));
        }

        return PhotoIntake.Look(bytes) is { Succeeded: false } look ? Refused(look.Reason)
            : photos.Put(bytes) ? Results.StatusCode(StatusCodes.Status201Created)
            : Results.NoContent();
    }

    private static async Task<IResult> GetAsync(
        SharedPhotos photos,
        string hash,
        HttpContext context,
        CancellationToken cancel
    )
    {
        if (Denied(context, Role.Reader) is { } denied)
        {
            return denied;
        }

        if (!PhotoIntake.IsHash(hash) || !await photos.IsNamedAsync(hash, cancel))
        {
            return Results.NotFound();
        }

        if (photos.Read(hash) is not { } read)
        {
            return Results.NotFound();
        }

        if (!read.Succeeded)
        {
            return Refused(read.Reason, StatusCodes.Status500InternalServerError);
        }

        if (PhotoFormats.Find(read.Value) is not { } format)
        {
            return Refused(new Remark("photo-not-the-one-named"), StatusCodes.Status500InternalServerError);
        }

        // The bytes of a name never change; only this browser may keep them, no store that is shared.
        context.Response.Headers.CacheControl = "private, max-age=31536000, immutable";
        context.Response.Headers.ContentSecurityPolicy = "default-src 'none'; sandbox";
        return Results.Bytes(read.Value, PhotoFormats.MediaTypeOf(format));
    }

    private static IResult? Denied(HttpContext context, Role least) =>
        context.Visitor() is not { } visitor ? Results.StatusCode(StatusCodes.Status401Unauthorized)
        : visitor.Role < least
            ? Refused(new Remark("photo-not-for-this-role"), StatusCodes.Status403Forbidden)
        : null;

    private static async Task<List<string>?> HashesAsync(HttpRequest request, CancellationToken cancel)
    {
        if (!request.HasJsonContentType())
        {
            return null;
        }

        try
        {
            var hashes = await request.ReadFromJsonAsync(PhotoJson.Default.ListString, cancel);
            return
                hashes is { Count: <= MostAsked }
                && hashes.TrueForAll(hash => hash is not null && PhotoIntake.IsHash(hash))
                ? hashes
                : null;
        }
        catch (JsonException)
        {
            return null;
        }
    }

    private static IResult Refused(Remark reason, int status = StatusCodes.Status400BadRequest) =>
        Results.Text(reason.ToString(), statusCode: status);

    private sealed record RequestSizeLimit(long? MaxRequestBodySize)
        : Microsoft.AspNetCore.Http.Metadata.IRequestSizeLimitMetadata;
}

[JsonSerializable(typeof(List<string>))]
internal sealed partial class PhotoJson : JsonSerializerContext;
