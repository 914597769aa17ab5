using System.Runtime.InteropServices.JavaScript;
using System.Security.Cryptography;
using Lastoff.Core.Ledger;

namespace Lastoff.App.Device;

/// <summary>A photo just taken: shrunk, with a small one beside it, and not kept yet. The bytes stay with the browser.</summary>
public sealed class Shot : IDisposable
{
    private readonly JSObject _files;

    private Shot(JSObject files)
    {
        _files = files;
        (Photo, Thumbnail) = (Hash("photo"), Hash("thumbnail"));
    }

    public string Photo { get; }
    public string Thumbnail { get; }

    /// <summary>The picture chosen in a field of the page; null when none was.</summary>
    /// <exception cref="JSException">The browser cannot read it as a picture.</exception>
    public static async Task<Shot?> TakeAsync(string field) => await PhotoModule.ShrinkAsync(field) is { } files ? new Shot(files) : null;

    public PhotoTaken ToAct(string? about) => new(Photo, Thumbnail, about);

    public void Dispose() => _files.Dispose();

    internal JSObject ToKeep() => PhotoModule.Named(_files, Photo, Thumbnail);

    private string Hash(string which) => Convert.ToHexStringLower(SHA256.HashData(_files.GetPropertyAsByteArray(which)!));
}
