using System.Buffers;
using System.Text;
using System.Text.Json;
using Broodtide.Domain.Journal;
using Broodtide.Phone.Browser;
using Broodtide.Workbench.Dossiers;
using NodaTime;

namespace Broodtide.Phone.Dossiers;

/// <summary>There is no room on this phone for a dossier.</summary>
internal sealed class NoRoomException : Exception;

/// <summary>The dossiers of others as they lie on this phone: packed, beside the journal, verified anew when read.</summary>
internal sealed class PhoneDossiers : IDossierShelf
{
    /// <inheritdoc/>
    public async ValueTask<IReadOnlyList<ShelvedDossier>> ListAsync(CancellationToken cancellation = default)
    {
        await DossierGlue.Load();
        using var lines = JsonDocument.Parse(await DossierGlue.List());
        return
        [
            .. lines
                .RootElement.EnumerateArray()
                .Select(Line)
                .OrderByDescending(dossier => dossier.Taken)
                .ThenBy(dossier => dossier.Id, StringComparer.Ordinal),
        ];
    }

    /// <inheritdoc/>
    /// <exception cref="NoRoomException">There is no room; nothing was kept.</exception>
    public async ValueTask<bool> PutAsync(
        ForeignDossier dossier,
        Instant taken,
        CancellationToken cancellation = default
    )
    {
        if (await ReadAsync(dossier.Id, cancellation) is not null)
        {
            return false;
        }

        var packed = PackageZip.Write(dossier.Files);
        using var bytes = Bytes.ToScript(packed);
        return await DossierGlue.Put(dossier.Id, Line(dossier, taken, packed.Length), bytes)
            ? true
            : throw new NoRoomException();
    }

    /// <inheritdoc/>
    public async ValueTask<ForeignDossier?> ReadAsync(string id, CancellationToken cancellation = default)
    {
        await DossierGlue.Load();
        if (await DossierGlue.Read(id) is not { } bytes)
        {
            return null;
        }

        using var packed = new MemoryStream(Bytes.FromScript(bytes));
        var files = PackageZip.Read(packed, cancellation);
        return
            files.Succeeded
            && ForeignPackage.Read(files.Value) is { Succeeded: true, Value: var dossier }
            && dossier.Id == id
            ? dossier
            : null;
    }

    /// <inheritdoc/>
    public async ValueTask<bool> RemoveAsync(string id, CancellationToken cancellation = default)
    {
        await DossierGlue.Load();
        return await DossierGlue.Remove(id);
    }

    private static string Line(ForeignDossier dossier, Instant taken, long length)
    {
        var output = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(output))
        {
            json.WriteStartObject();
            json.WriteString("id"u8, dossier.Id);
            json.WriteString("title"u8, dossier.Title);
            json.WriteString("by"u8, dossier.By);
            json.WriteString("licence"u8, dossier.Licence);
            json.WriteString("taken"u8, UtcText.Format(taken));
            json.WriteNumber("runs"u8, dossier.RunIds.Count);
            json.WriteNumber("entries"u8, dossier.Entries.Count);
            json.WriteNumber("bytes"u8, length);
            json.WriteBoolean("invented"u8, dossier.IsInvented);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(output.WrittenSpan);
    }

    private static ShelvedDossier Line(JsonElement line) =>
        new(
            line.GetProperty("id").GetString()!,
            line.GetProperty("title").GetString() ?? "",
            line.GetProperty("by").GetString(),
            line.GetProperty("licence").GetString(),
            UtcText.TryParse(Encoding.UTF8.GetBytes(line.GetProperty("taken").GetString()!), out var taken)
                ? taken
                : Instant.MinValue,
            line.GetProperty("runs").GetInt32(),
            line.GetProperty("entries").GetInt32(),
            line.GetProperty("bytes").GetInt64(),
            line.GetProperty("invented").GetBoolean()
        );
}
