#pragma once

#include <glm/glm.hpp>
#include <string>

#include "shape/mesh.hpp"

/// A box from `low` to `high`, mm, every face with vertices of its own: 24 vertices, 12 triangles.
podwright::Mesh box_mesh(const glm::vec3& low, const glm::vec3& high);

/// A ball about the origin of `rings` x `slices` quadrilaterals, triangles at its poles: closed,
/// with 2 * slices * (rings - 1) triangles.
podwright::Mesh ball_mesh(float radius, std::uint32_t rings, std::uint32_t slices);

/// A tube about the x axis from x = 0 to `length`, of `sides` flat sides: 8 * sides triangles.
podwright::Mesh tube_mesh(float inner, float outer, float length, std::uint32_t sides);

/// The bytes of a file of one mesh as `.gltf` text. `uri` names its data, as it stands.
std::string gltf_text(const std::string& glb, const std::string& uri);

/// The data of a .glb file.
std::string glb_data(const std::string& glb);

/// `bytes` in base64 (RFC 4648).
std::string base64(const std::string& bytes);
